"""A bag (BagIt 1.0, RFC 8493) with SHA-512: its lists written, and read again by somebody who trusts nothing."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Mapping
from pathlib import Path
from typing import NamedTuple

DATA = "data"
DECLARATION = "bagit.txt"
ABOUT = "bag-info.txt"
FIRST = "READ-ME-FIRST.txt"
LIST = "manifest-sha512.txt"
LIST_OF_LISTS = "tagmanifest-sha512.txt"
LISTED = (FIRST, ABOUT, DECLARATION, LIST)
"""What the second list holds: the files beside the content."""
AGENT = "benchlore"
_DECLARED = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n"
_LINE = re.compile(r"([0-9a-f]{128})  (\S.*)")
_ENCODED = {"%": "%25", "\n": "%0A", "\r": "%0D"}


class Listing(NamedTuple):
    """A list as read: path to SHA-512. ``sound`` is false where it is not, letter for letter, as we write one."""

    files: Mapping[str, str]
    sound: bool


def digest(file: Path) -> str:
    """SHA-512 (FIPS 180-4) of a file, in hexadecimal digits."""
    with file.open("rb") as stream:
        return hashlib.file_digest(stream, "sha512").hexdigest()


def write_bag(folder: Path, about: Iterable[tuple[str, str]], first_words: str) -> None:
    """Make a bag of a folder whose ``data`` is all there. ``about``: further (label, value) of ``bag-info.txt``."""
    payload = sorted(one for one in (folder / DATA).rglob("*") if one.is_file())
    sums = {one.relative_to(folder).as_posix(): digest(one) for one in payload}
    size = sum(one.stat().st_size for one in payload)
    listing = listing_text(sums)
    labels = [*about, ("External-Identifier", identifier(listing)), ("Payload-Oxum", f"{size}.{len(payload)}")]
    _write(folder / DECLARATION, _DECLARED)
    _write(folder / ABOUT, "".join(f"{label}: {' '.join(value.split())}\n" for label, value in labels))
    _write(folder / FIRST, first_words)
    _write(folder / LIST, listing)
    _write(folder / LIST_OF_LISTS, listing_text({name: digest(folder / name) for name in LISTED}))


def identifier(listing: str) -> str:
    """A name for what a list holds: two copies of one keeping have the same."""
    return f"benchlore-{hashlib.sha512(listing.encode()).hexdigest()[:32]}"


def listing_text(sums: Mapping[str, str]) -> str:
    """A list as `sha512sum` and every BagIt tool read it; what would break a line is written as RFC 8493 says."""
    encoded = ((re.sub("[%\n\r]", lambda found: _ENCODED[found[0]], path), sha) for path, sha in sums.items())
    return "".join(f"{sha}  {path}\n" for path, sha in sorted(encoded))


def read_listing(file: Path) -> Listing | None:
    """What a list holds, as far as it can be read; None where there is none."""
    try:
        text = file.read_bytes().decode("utf-8", "replace")
    except OSError:
        return None
    files: dict[str, str] = {}
    for line in text.split("\n"):
        found = _LINE.fullmatch(line)
        if found is not None:
            files[re.sub("%(25|0A|0D)", lambda code: chr(int(code[1], 16)), found[2])] = found[1]
    inner = {path: sha for path, sha in files.items() if ".." not in path.split("/") and not path.startswith("/")}
    return Listing(inner, listing_text(files) == text and inner == files and bool(files) and not file.is_symlink())


def labels_of(folder: Path) -> Mapping[str, str]:
    """What ``bag-info.txt`` says; empty where it cannot be read."""
    try:
        text = (folder / ABOUT).read_text("utf-8")
    except (OSError, UnicodeDecodeError):
        return {}
    return dict(line.split(": ", 1) for line in text.splitlines() if ": " in line)


def is_ours(folder: Path) -> bool:
    """Whether this folder is a keeping that we made, whole or not."""
    if (folder / DECLARATION).is_symlink() or not (folder / LIST).is_file():
        return False
    return labels_of(folder).get("Bag-Software-Agent", "").split(" ")[0] == AGENT


def _write(file: Path, text: str) -> None:
    file.write_text(text, "utf-8", newline="\n")
