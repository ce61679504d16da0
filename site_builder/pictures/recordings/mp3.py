"""MP3: the frames alone are kept (ISO/IEC 11172-3, 2.4.1.3; 13818-3), whatever tags stand around and between them."""

from __future__ import annotations

from typing import BinaryIO

from site_builder.pictures.recordings.splice import Edit, Unwalkable, read

_RATES = (  # kbit/s by index, of MPEG 1 and MPEG 2/2.5, layers I, II, III
    ((32, 64, 96, 128, 160, 192, 224, 256, 288, 320, 352, 384, 416, 448),
     (32, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320, 384),
     (32, 40, 48, 56, 64, 80, 96, 112, 128, 160, 192, 224, 256, 320)),
    ((32, 48, 56, 64, 80, 96, 112, 128, 144, 160, 176, 192, 224, 256),
     (8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160),
     (8, 16, 24, 32, 40, 48, 56, 64, 80, 96, 112, 128, 144, 160)),
)
_SAMPLING = {3: (44100, 48000, 32000), 2: (22050, 24000, 16000), 0: (11025, 12000, 8000)}


def edits(stream: BinaryIO, size: int) -> list[Edit]:
    """Everything between the frames goes."""
    data = read(stream, 0, size)
    found, at, kept, frames = [], 0, 0, 0
    while at < size:
        length = _frame(data, at)
        if length and (at + length == size or (frames and kept == at) or _frame(data, at + length)):
            if kept < at:
                found.append(Edit(kept, at, b"", data[kept:at]))
            at += length
            kept, frames = at, frames + 1
            continue
        at = _after_tag(data, at) or data.find(b"\xff", at + 1)
        if at < 0:
            break
    if not frames:
        raise Unwalkable
    if kept < size:
        found.append(Edit(kept, size, b"", data[kept:]))
    return [edit for edit in found if edit.end > edit.start]


def _after_tag(data: bytes, at: int) -> int:
    """The end of an ID3v2 or APEv2 tag that begins here; 0 if none does."""
    head = data[at : at + 32]
    if head[:3] == b"ID3" and len(head) >= 10 and max(head[6:10]) < 128:
        length = head[6] << 21 | head[7] << 14 | head[8] << 7 | head[9]
        return min(len(data), at + 10 + length + (10 if head[5] & 0x10 else 0))
    if head[:8] == b"APETAGEX" and len(head) == 32:
        return min(len(data), at + 32 + int.from_bytes(head[12:16], "little"))
    return 0


def _frame(data: bytes, at: int) -> int:
    """The length of the frame that begins here; 0 if none does."""
    if data[at : at + 1] != b"\xff" or at + 4 > len(data) or data[at + 1] < 0xE0:
        return 0
    version, layer = data[at + 1] >> 3 & 3, 3 - (data[at + 1] >> 1 & 3)
    rate, sampling, padding = data[at + 2] >> 4, data[at + 2] >> 2 & 3, data[at + 2] >> 1 & 1
    if version == 1 or layer == 3 or rate in (0, 15) or sampling == 3:
        return 0
    bits = _RATES[0 if version == 3 else 1][layer][rate - 1] * 1000
    hertz = _SAMPLING[version][sampling]
    if layer == 0:
        return (12 * bits // hertz + padding) * 4
    return (72 if layer == 2 and version != 3 else 144) * bits // hertz + padding
