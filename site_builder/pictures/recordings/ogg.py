"""Ogg (RFC 3533) with Opus (RFC 7845), Vorbis, FLAC, Speex or Theora in it: the packet of comments is blanked.

The packet keeps its length: the name of the program, which may be any text, becomes blanks and takes all the room.
So no packet moves from its page; of the pages that are touched the checksum is reckoned anew.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import BinaryIO

from site_builder.pictures.recordings.splice import Edit, Unwalkable, read

_OPUS, _VORBIS, _THEORA, _FLAC, _SPEEX = b"OpusHead", b"\x01vorbis", b"\x80theora", b"\x7fFLAC", b"Speex   "
_HEADS = (_OPUS, _VORBIS, _THEORA, _FLAC, _SPEEX)
_COMMENTS = {_OPUS: (b"OpusTags", b""), _VORBIS: (b"\x03vorbis", b"\x01"), _THEORA: (b"\x81theora", b""),
             _SPEEX: (b"", b"")}


@dataclass(slots=True)
class _Song:
    """One logical stream: how it is coded, and how far its packets have been counted."""

    head: bytes
    packet: int = 0
    places: list[int] = field(default_factory=list)
    """Where each byte of the packet in hand stands in the file."""
    last_block: bool = False


def edits(stream: BinaryIO, size: int) -> list[Edit]:
    """What must be changed in the file, page by page."""
    data = bytearray(read(stream, 0, size))
    original = bytes(data)
    songs: dict[bytes, _Song] = {}
    touched: set[int] = set()
    said: list[bytes] = []
    pages: list[tuple[int, int]] = []
    found: list[Edit] = []
    at = 0
    while at < size:
        end, body, lacing = _page(original, at)
        pages.append((at, end))
        serial = original[at + 14 : at + 18]
        if original[at + 5] & 2:
            head = next((one for one in _HEADS if original.startswith(one, body)), None)
            if head is None:
                raise Unwalkable
            songs[serial] = _Song(head)
        song = songs.get(serial)
        if song is None:
            raise Unwalkable
        for places in _packets(song, body, lacing):
            old = bytes(original[one] for one in places)
            new = _blanked(song, old)
            song.packet += 1
            if new is None or old == new:
                continue
            if b"=" in old:  # no more than the name of a program otherwise
                said.append(old)
            for place, value in zip(places, new, strict=True):
                data[place] = value
            touched |= {n for n, (start, stop) in enumerate(pages) if start <= places[-1] and stop > places[0]}
        at = end
    for number in sorted(touched):
        start, stop = pages[number]
        data[start + 22 : start + 26] = bytes(4)
        data[start + 22 : start + 26] = _checksum(data[start:stop]).to_bytes(4, "little")
        if data[start:stop] != original[start:stop]:
            found.append(Edit(start, stop, bytes(data[start:stop])))
    if found and said:
        found[0] = Edit(found[0].start, found[0].end, found[0].new, b"\n".join(said))
    return found


def _page(data: bytes, at: int) -> tuple[int, int, bytes]:
    """Where the page ends, where its body begins, and the lengths of its segments."""
    if data[at : at + 4] != b"OggS" or at + 27 > len(data):
        raise Unwalkable
    count = data[at + 26]
    lacing = data[at + 27 : at + 27 + count]
    body = at + 27 + count
    end = body + sum(lacing)
    if end > len(data):
        raise Unwalkable
    return end, body, lacing


def _packets(song: _Song, body: int, lacing: bytes) -> Iterator[list[int]]:
    """Every packet among the heads of the stream that ends on this page; packets of sound are not looked at."""
    for length in lacing:
        wanted = song.packet < 2 or (song.head == _FLAC and not song.last_block)
        if wanted:
            song.places += range(body, body + length)
        body += length
        if length < 255 and wanted:
            yield song.places
            song.places = []


def _blanked(song: _Song, packet: bytes) -> bytes | None:
    """What the packet becomes; None if it is to stay."""
    if song.packet == 0:
        return None
    if song.head == _FLAC:
        song.last_block = bool(packet[0] & 0x80)
        kind = packet[0] & 0x7F
        if kind == 4:
            return packet[:4] + _silent(packet[4:], b"", b"")
        return None if kind in (0, 3) else bytes([packet[0] & 0x80 | 1]) + packet[1:4] + bytes(len(packet) - 4)
    return _silent(packet, *_COMMENTS[song.head])


def _silent(packet: bytes, opening: bytes, closing: bytes) -> bytes:
    """A packet of as many bytes that names a program of blanks and holds no comment."""
    room = len(packet) - len(opening) - len(closing) - 8
    if room < 0 or not packet.startswith(opening):
        raise Unwalkable
    return opening + room.to_bytes(4, "little") + b" " * room + bytes(4) + closing


def _table() -> list[int]:
    table = []
    for number in range(256):
        value = number << 24
        for _ in range(8):
            value = (value << 1) ^ 0x04C11DB7 if value & 0x80000000 else value << 1
        table.append(value & 0xFFFFFFFF)
    return table


_CRC = _table()


def _checksum(page: bytes | bytearray) -> int:
    """RFC 3533, 6: the polynomial 0x04c11db7, beginning at nought, nothing turned round."""
    value = 0
    for byte in page:
        value = (value << 8 & 0xFFFFFFFF) ^ _CRC[value >> 24 ^ byte]
    return value
