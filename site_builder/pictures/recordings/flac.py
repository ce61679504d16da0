"""FLAC (RFC 9639): blocks of metadata that are not needed to play it become padding."""

from __future__ import annotations

from typing import BinaryIO

from site_builder.pictures.recordings.splice import Edit, changed, read

STREAM, PADDING, SEEKING = 0, 1, 3


def edits(stream: BinaryIO, size: int) -> list[Edit]:
    """What must be changed in the file."""
    found: list[Edit] = []
    at, last = 4, False
    while not last:
        head = read(stream, at, at + 4)
        last, kind = bool(head[0] & 0x80), head[0] & 0x7F
        length = int.from_bytes(head[1:], "big")
        if kind not in (STREAM, SEEKING):
            found += changed(stream, at, bytes([head[0] & 0x80 | PADDING]), says=False)
            found += changed(stream, at + 4, bytes(length), says=kind != PADDING)
        at += 4 + length
    if size - at >= 128 and read(stream, size - 128, size - 125) == b"TAG":  # an ID3v1 tag laid behind it
        found.append(Edit(size - 128, size, b"", read(stream, size - 128, size)))
    return found
