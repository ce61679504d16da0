"""A folder of entries, each whole or absent."""

from __future__ import annotations

import json
import os
import re
import shutil
import stat
import tempfile
from collections.abc import Iterable, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from hashlib import blake2b
from pathlib import Path
from typing import Any

_NAME = re.compile(r"[a-z0-9][a-z0-9-]{0,120}")
_FILE = re.compile(r"[a-z0-9]+(?:\.[a-z0-9]+)?")
_CONTENT = re.compile(r"[a-z]+-[0-9a-f]{32}")
_SEAL = re.compile(rb"[0-9a-f]{32}\n")
_LARGEST_NOTE = 64_000_000


@dataclass(frozen=True, slots=True)
class Entry:
    """What was put under a name: a note, and files of the store by their names."""

    note: Any
    files: Mapping[str, Path] = field(default_factory=dict)


class Store:
    """Entries in ``folder``, made in the way that ``recipe`` names; without a folder nothing is kept."""

    def __init__(self, folder: Path | None, recipe: str) -> None:
        self.folder = folder
        self.recipe = recipe

    def get(self, name: str) -> Entry | None:
        """The entry of this name, or None if it is not there as it was put."""
        if self.folder is None or not _NAME.fullmatch(name):
            return None
        try:
            data = _regular(self.folder / f"{name}.json", _LARGEST_NOTE)
            seal, _, body = data.partition(b"\n")
            if seal != self._seal(name, body):
                return None
            kept = json.loads(body)
            files = {str(file): self._file(name, str(file), str(digest)) for file, digest in kept["files"].items()}
            return Entry(kept["note"], files)
        except (OSError, ValueError, TypeError, KeyError, AttributeError, RecursionError):
            return None

    def put(self, name: str, note: Any, files: Mapping[str, bytes | Path] | None = None) -> Entry | None:
        """Keep an entry, note last. None where it could not be written; what stood there before is gone then."""
        if self.folder is None or not _NAME.fullmatch(name):
            return None
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            digests = {file: self._put_file(name, file, content) for file, content in (files or {}).items()}
            body = json.dumps({"note": note, "files": digests}, ensure_ascii=False).encode("utf-8", "surrogatepass")
            _write(self.folder / f"{name}.json", self._seal(name, body) + b"\n" + body)
        except OSError:
            return None
        return self.get(name)

    def prune(self, kept: Iterable[str]) -> None:
        """Remove every entry but these. What no store has put is left: it may be somebody's."""
        if self.folder is None:
            return
        names = set(kept)
        with suppress(OSError):
            for found in self.folder.iterdir():
                if found.stem in names or found.is_symlink():
                    continue
                if found.suffix == ".json" and _is_ours(found):
                    shutil.rmtree(self.folder / found.stem, ignore_errors=True)
                    found.unlink(missing_ok=True)
                elif _CONTENT.fullmatch(found.name) and not found.with_name(f"{found.name}.json").exists():
                    shutil.rmtree(found, ignore_errors=True)  # one that was cut off while it was put

    def _seal(self, name: str, body: bytes) -> bytes:
        return blake2b(f"{self.recipe}\0{name}\0".encode() + body, digest_size=16).hexdigest().encode()

    def _file(self, name: str, file: str, digest: str) -> Path:
        """The file of an entry if it is the one that was put; else ValueError or OSError."""
        assert self.folder is not None
        path = self.folder / name / file
        if not _FILE.fullmatch(file) or (self.folder / name).is_symlink() or _digest_of(path) != digest:
            raise ValueError(file)
        return path

    def _put_file(self, name: str, file: str, content: bytes | Path) -> str:
        assert self.folder is not None
        if not _FILE.fullmatch(file):
            raise OSError(file)
        home = self.folder / name
        if home.is_symlink() or (home.exists() and not home.is_dir()):
            home.unlink()
        home.mkdir(parents=True, exist_ok=True)
        if isinstance(content, Path):
            _free(home / file)
            content.replace(home / file)
        else:
            _write(home / file, content)
        return _digest_of(home / file)


def _regular(path: Path, largest: int) -> bytes:
    """The content of an ordinary file; a link, a pipe or a file without end is refused."""
    about = path.lstat()
    if not stat.S_ISREG(about.st_mode) or about.st_size > largest:
        raise OSError(path)
    return path.read_bytes()


def _is_ours(note: Path) -> bool:
    try:
        with note.open("rb") as stream:
            return _NAME.fullmatch(note.stem) is not None and _SEAL.fullmatch(stream.read(33)) is not None
    except OSError:
        return False


def _digest_of(path: Path) -> str:
    if not stat.S_ISREG(path.lstat().st_mode):
        raise OSError(path)
    digest = blake2b(digest_size=16)
    with path.open("rb") as stream:
        while block := stream.read(1 << 20):
            digest.update(block)
    return digest.hexdigest()


def _free(path: Path) -> None:
    """Take a folder away that stands where a file of the store goes."""
    if path.is_dir() and not path.is_symlink():
        shutil.rmtree(path)


def _write(path: Path, data: bytes) -> None:
    """The whole file or none of it, even if the power fails or two builds run at once."""
    _free(path)
    handle, scratch = tempfile.mkstemp(dir=path.parent, prefix=".")
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
        Path(scratch).replace(path)
    except OSError:
        Path(scratch).unlink(missing_ok=True)
        raise
