"""WAV and RF64 (EBU Tech 3285, 3306): chunks that are not needed to play it become blank filling."""

from __future__ import annotations

from typing import BinaryIO

from site_builder.pictures.recordings.splice import Edit, Unwalkable, changed, read

_KEPT = (b"fmt ", b"data", b"fact", b"ds64", b"cue ", b"smpl")
_FILLING = (b"JUNK", b"junk", b"PAD ", b"FLLR")


def edits(stream: BinaryIO, size: int) -> list[Edit]:
    """What must be changed in the file."""
    found: list[Edit] = []
    at, sound = 12, False
    while at + 8 <= size:
        name = read(stream, at, at + 4)
        length = int.from_bytes(read(stream, at + 4, at + 8), "little")
        end = at + 8 + length
        if name == b"data":
            sound = True
            if length in (0, 0xFFFFFFFF) or end > size:  # a recorder that was switched off, or a file of over 4 GB
                return found
        elif end > size:
            raise Unwalkable
        elif name not in _KEPT:
            if name not in _FILLING:
                found += changed(stream, at, b"JUNK", says=False)
            found += changed(stream, at + 8, bytes(length), says=name not in _FILLING)
        at = end + length % 2
    if not sound:
        raise Unwalkable
    if at < size:
        found.append(Edit(at, size, b"", read(stream, at, size)))
    return found
