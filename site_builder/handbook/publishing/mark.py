"""The mark in a folder that we made: it lists what is ours, so that what somebody put beside it is never lost."""

from __future__ import annotations

import hashlib
import os
import unicodedata
from collections.abc import Iterator, Mapping
from pathlib import Path

MARK = "made-by-benchlore.txt"

WORK = ".benchlore-making-"
"""So begins the name of each folder in which a handbook is being made."""

_FIRST = "# This folder was made by benchlore."
_TEXT = f"""\
{_FIRST}
# The next build replaces it: keep nothing of your own in it. What is not listed here is not ours and is not touched.
# Below is each file with its SHA-256; `sha256sum --check {MARK}` tries whether all are whole.
"""
_MOST = 64 << 20  # bytes; a handbook of a hundred thousand files has a shorter mark

_BY_SYSTEMS = frozenset({
    ".ds_store", "thumbs.db", "desktop.ini", ".directory", "lost+found", "system volume information", "$recycle.bin",
    ".trashes", ".fseventsd", ".spotlight-v100", ".temporaryitems", ".documentrevisions-v100",
})
"""What systems write into folders and onto sticks by themselves; it is nobody's work."""

# A handbook made before there was a mark is known by these. One page of another maker, and it is not ours.
_ALWAYS = ("index.html", "404.html", "assets/handbook/handbook.css")
_PAGE = (b'class="bl-skip"', b'class="md-header bl-running"')
_UNMARKED = (".html", ".css", ".js", ".json", ".svg", ".webp", ".woff2")
_RECORDINGS = (".mp3", ".mp4", ".m4a", ".wav", ".ogg", ".oga", ".opus", ".webm", ".mov", ".aac", ".flac")


def digest(file: Path) -> str:
    """SHA-256 (FIPS 180-4) of a file, in hexadecimal digits."""
    with file.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def write_mark(folder: Path) -> None:
    """Mark a finished handbook as made by us; whatever was written into it before belongs to it."""
    lines = [f"{digest(folder / path)}  {path}\n" for path in sorted(files_in(folder)) if path != MARK]
    (folder / MARK).write_text(_TEXT + "".join(lines), "utf-8", newline="\n")


def listed(folder: Path) -> Mapping[str, str] | None:
    """Path and SHA-256 of each file that the mark of a folder lists; None where there is no mark of ours."""
    mark = folder / MARK
    try:
        if mark.is_symlink() or not mark.is_file() or mark.stat().st_size > _MOST:
            return None
        text = mark.read_text("utf-8")
    except (OSError, UnicodeDecodeError):
        return None
    if not text.startswith(_FIRST + "\n"):
        return None
    pairs = (line.split("  ", 1) for line in text.split("\n") if line[64:66] == "  ")
    return {path: sha for sha, path in pairs if ".." not in path.split("/") and not Path(path).is_absolute()}


def strangers(folder: Path) -> list[str]:
    """What stands in a folder and is not of a handbook that we made; empty for such a handbook or an empty folder.

    Raises OSError where the folder cannot be looked through.
    """
    there = sorted(files_in(folder))
    ours = listed(folder)
    if ours is None:
        return [] if _is_unmarked_handbook(folder, there) else there
    own = {unicodedata.normalize("NFC", path) for path in (*ours, MARK)}
    return [path for path in there if unicodedata.normalize("NFC", path) not in own]


def files_in(folder: Path) -> Iterator[str]:
    """Every file, link and pipe below a folder, as paths from there; not what systems leave behind."""
    for parent, folders, names in os.walk(folder, onerror=_raise):
        above = Path(parent)
        links = [name for name in folders if (above / name).is_symlink()]
        if above == folder:
            folders[:] = [name for name in folders if not by_system(name)]
            left = [name for name in (*names, *links) if not by_system(name)]
        else:  # what is in there goes with the folder: only what surely nobody wrote
            left = [*(name for name in names if not _worthless(above / name)), *links]
        for name in left:
            yield (above / name).relative_to(folder).as_posix()


def by_system(name: str) -> bool:
    """Whether systems write a file or folder of this name by themselves."""
    return name.lower() in _BY_SYSTEMS or name.startswith(("._", ".Trash-"))


def stays(folder: Path) -> bool:
    """Whether beside our own files something stands in a folder that must not go with it, whoever put it there.

    A bin of a system (`.Trash-1000`) holds what somebody threw away and may want back; a folder may merely be called
    like one, and a work folder like one of ours.
    """
    return any((by_system(one.name) or one.name.startswith(WORK)) and not _worthless(one) for one in folder.iterdir())


def _worthless(file: Path) -> bool:
    """Whether a system wrote this file by itself and will again: how a folder is shown, or what belongs to a file."""
    name = file.name
    if file.is_symlink() or not file.is_file():
        return False
    beside = name.startswith("._") and (name == "._." or os.path.lexists(file.with_name(name[2:])))
    return beside or name.lower() in _BY_SYSTEMS


def _is_unmarked_handbook(folder: Path, there: list[str]) -> bool:
    """Whether a folder is without doubt a handbook that an older version of this program made, and nothing else."""
    if not set(_ALWAYS) <= set(there):
        return False
    for path in there:
        file, ending = folder / path, Path(path).suffix.lower()
        if file.is_symlink() or not file.is_file():
            return False
        if ending not in _UNMARKED and not (ending in _RECORDINGS and path.startswith("assets/photos/")):
            return False
        if ending == ".html" and not all(sign in file.read_bytes() for sign in _PAGE):
            return False
        if ending != ".html" and not path.startswith(("assets/", "search/")):
            return False
    return True


def _raise(problem: OSError) -> None:
    raise problem
