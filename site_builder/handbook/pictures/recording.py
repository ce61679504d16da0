"""Sound and film: copied as they are, except that an MP4 loses the block in which phones tell the place."""

from __future__ import annotations

import io
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO

from site_builder.notebook.picture_facts import Box, boxes

# User data and metadata of the film and of each track: titles, makers, places (ISO/IEC 14496-12, 8.10, 8.11).
_TALK = frozenset((b"udta", b"meta"))


def talking_boxes(stream: BinaryIO, size: int) -> tuple[Box, ...]:
    """The boxes of an MP4 that describe the film and are not needed to play it."""
    return tuple(_find(stream, 0, size))


def _find(stream: BinaryIO, start: int, end: int) -> Iterator[Box]:
    for box in boxes(stream, start, end):
        if box.name in _TALK or (start == 0 and box.name == b"uuid"):
            yield box
        elif box.name in (b"moov", b"trak"):
            yield from _find(stream, box.content, box.end)


def silence(source: Path, target: Path, found: tuple[Box, ...]) -> None:
    """A copy in which these boxes are free space of the same length, so that nothing else moves."""
    shutil.copyfile(source, target)
    with target.open("r+b") as stream:
        for box in found:
            stream.seek(box.start + 4)
            stream.write(b"free")
            stream.seek(box.content)
            _write_zeros(stream, box.end - box.content)


def _write_zeros(stream: BinaryIO, count: int) -> None:
    block = bytes(io.DEFAULT_BUFFER_SIZE)
    while count > 0:
        count -= stream.write(block[:count])
