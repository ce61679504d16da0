"""The small file beside a book that holds its last seal, so that a cut at the end of the book shows."""

from __future__ import annotations

import os
import sys
import time
from dataclasses import dataclass
from pathlib import Path

from site_builder.notebook.finding import Level
from site_builder.notebook.reader import decode, read_text
from site_builder.notebook.tree import Map, Text

_HEAD = """\
# The last seal of {book}. It is written with every entry and stays beside the book:
# by it one sees when entries were cut off at the end.
"""
_TRIES, _WAIT = 20, 0.05
"""Windows refuses to replace a file that somebody reads just then."""


class LastBroken(Exception):
    """The file is there and says nothing that can be understood."""


@dataclass(frozen=True, slots=True)
class Last:
    """Number, seal and date of the last entry that was acknowledged; 0 in a book that is only begun.

    ``writing`` is the byte of the book at which the next entry was about to be written when this was noted:
    what stands from there on was never acknowledged.
    """

    entry: int = 0
    seal: str = ""
    date: str = ""
    writing: int | None = None


def last_file(book: Path) -> Path:
    """``sign-offs.last`` beside ``sign-offs.yml``."""
    return book.with_suffix(".last")


def read_last(book: Path) -> Last | None:
    """What is noted for a book; None where nothing is. Raises LastBroken, OSError."""
    file = last_file(book)
    try:
        if file.exists() and not file.is_file():
            raise LastBroken(file.name)
        data = file.read_bytes()
    except FileNotFoundError:
        return None
    text, wrong = decode(data, file.name)
    reading = read_text(text, file.name)
    tree = reading.trees[0] if len(reading.trees) == 1 else None
    if wrong or any(found.level is Level.ERROR for found in reading.findings) or not isinstance(tree, Map):
        raise LastBroken(file.name)
    told = {str(key): str(value) for key, value in tree.items() if isinstance(value, Text)}
    if not told.get("entry", "").isdecimal() or not told.get("writing", "0").isdecimal():
        raise LastBroken(file.name)
    writing = int(told["writing"]) if "writing" in told else None
    return Last(int(told["entry"]), told.get("seal", ""), told.get("date", ""), writing)


def write_last(book: Path, last: Last) -> None:
    """Note a last seal: the old note or the new one stands on the disk, never half of either."""
    lines = [_HEAD.format(book=book.name), f"entry: {last.entry}\n"]
    lines += [f"{key}: {value}\n" for key, value in (("date", last.date), ("seal", last.seal)) if value]
    if last.writing is not None:
        lines.append(f"writing: {last.writing}\n")
    write_whole(last_file(book), "".join(lines).encode("utf-8"))


def write_whole(file: Path, data: bytes) -> None:
    """Replace a file by way of one beside it. Whoever writes holds the lock of the book."""
    aside = file.with_name(f".{file.name}.new")
    handle = os.open(aside, os.O_WRONLY | os.O_CREAT | os.O_TRUNC | getattr(os, "O_BINARY", 0), 0o644)
    try:
        write_all(handle, data)
        to_disk(handle)
    finally:
        os.close(handle)
    for attempt in range(_TRIES):
        try:
            aside.replace(file)
            break
        except PermissionError:
            if attempt == _TRIES - 1 or os.name != "nt":
                raise
            time.sleep(_WAIT)
    folder_to_disk(file.parent)


def write_all(handle: int, data: bytes) -> None:
    """Write every byte; the system may take fewer at a time."""
    rest = memoryview(data)
    while rest:
        rest = rest[os.write(handle, rest):]


def to_disk(handle: int) -> None:
    """Wait until what was written lies on the disk itself."""
    if sys.platform == "darwin":
        # here fsync leaves it in the memory of the drive (Apple, fsync(2)); some file systems know no other
        import fcntl

        try:
            fcntl.fcntl(handle, fcntl.F_FULLFSYNC)
        except OSError:
            os.fsync(handle)
    else:
        os.fsync(handle)


def folder_to_disk(folder: Path) -> None:
    """The same for the names in a folder, where the system can do it."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    except OSError:
        return  # some network shares cannot; the bytes of the file itself are down already
    finally:
        os.close(handle)
