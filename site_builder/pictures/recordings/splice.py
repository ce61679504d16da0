"""Stretches of a file that are written anew in its copy."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from shutil import copyfileobj
from typing import BinaryIO

_BLOCK = 1 << 20


class Unwalkable(Exception):
    """The file is not laid out as its form demands; what it says of itself cannot be told from what it plays."""


@dataclass(frozen=True, slots=True)
class Edit:
    """The bytes from ``start`` to ``end`` become ``new``. ``words`` is what was said there, if anything was."""

    start: int
    end: int
    new: bytes
    words: bytes = b""


def read(stream: BinaryIO, start: int, end: int) -> bytes:
    """These bytes; ``Unwalkable`` where the file ends before."""
    stream.seek(start)
    found = stream.read(end - start)
    if len(found) != end - start:
        raise Unwalkable
    return found


def changed(stream: BinaryIO, start: int, new: bytes, *, says: bool = True) -> list[Edit]:
    """One edit that lays ``new`` over as many bytes; none where they stand there already."""
    old = read(stream, start, start + len(new))
    return [] if old == new else [Edit(start, start + len(new), new, old if says else b"")]


def write_spliced(source: Path, target: Path, edits: Sequence[Edit]) -> None:
    """A copy of ``source`` with these edits, which do not overlap."""
    with source.open("rb") as stream, target.open("wb") as out:
        for edit in sorted(edits, key=lambda one: one.start):
            _copy(stream, out, edit.start - stream.tell())
            out.write(edit.new)
            stream.seek(edit.end)
        copyfileobj(stream, out, _BLOCK)


def _copy(stream: BinaryIO, out: BinaryIO, count: int) -> None:
    while count > 0:
        block = stream.read(min(count, _BLOCK))
        if not block:
            raise Unwalkable
        out.write(block)
        count -= len(block)
