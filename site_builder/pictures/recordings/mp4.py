"""MP4, M4A and QuickTime films (ISO/IEC 14496-12; QuickTime File Format).

Boxes that nobody needs for playing become free space of the same length. Of the tracks only sound, picture and
lettering stay; a track with readings of the camera (where it was, how it was held) loses its samples too.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator
from typing import BinaryIO

from site_builder.notebook.picture_facts import Box, boxes
from site_builder.pictures.recordings.splice import Edit, Unwalkable, changed, read

_FILE = frozenset((b"ftyp", b"moov", b"mdat", b"moof", b"mfra", b"sidx", b"ssix", b"styp", b"wide", b"pdin"))
_MOVIE = frozenset((b"mvhd", b"trak", b"mvex", b"iods"))
_TRACK = frozenset((b"tkhd", b"edts", b"mdia", b"tref", b"tapt", b"load"))
_MEDIA = frozenset((b"mdhd", b"hdlr", b"minf", b"elng"))
_SHOWN = (b"soun", b"vide", b"text", b"sbtl", b"subt", b"clcp")
_CAMERA = (b"gpmd", b"camm")
"""Sample entries of tracks in which cameras write where they are."""
_PLAYED = (b"avc1", b"avc3", b"av01", b"vp09", b"mp4v", b"hvc1", b"hev1")
_LARGEST_HEAD = 64_000_000


def edits(stream: BinaryIO, size: int) -> list[Edit]:
    """What must be changed in the file."""
    found: list[Edit] = []
    end, movie = 0, False
    for box in boxes(stream, 0, size):
        end = box.end
        if box.name == b"moov":
            movie = True
            found += _movie(stream, box)
        elif box.name not in _FILE:
            found += _freed(stream, box)
    if not movie:
        raise Unwalkable
    if end < size:
        found.append(Edit(end, size, b"", read(stream, end, min(size, end + _LARGEST_HEAD))))
    return found


def _movie(stream: BinaryIO, movie: Box) -> Iterator[Edit]:
    parts = [*boxes(stream, movie.content, movie.end)]
    fragmented = any(part.name == b"mvex" for part in parts)
    for part in parts:
        if part.name not in _MOVIE:
            yield from _freed(stream, part)
        elif part.name == b"mvhd":
            yield from _timeless(stream, part)
        elif part.name == b"trak":
            yield from _track(stream, part, fragmented)


def _track(stream: BinaryIO, track: Box, fragmented: bool) -> Iterator[Edit]:
    parts = [*boxes(stream, track.content, track.end)]
    media = _inner(stream, track, b"mdia")
    handler = _inner(stream, media, b"hdlr")
    if read(stream, handler.content + 8, handler.content + 12) not in _SHOWN:
        if fragmented:
            raise Unwalkable
        yield from _samples(stream, media)
        yield from _freed(stream, track)
        return
    for part in parts:
        if part.name not in _TRACK:
            yield from _freed(stream, part)
        elif part.name == b"tkhd":
            yield from _timeless(stream, part)
    for part in boxes(stream, media.content, media.end):
        if part.name not in _MEDIA:
            yield from _freed(stream, part)
        elif part.name == b"mdhd":
            yield from _timeless(stream, part)
    # the names of handlers are those of makers; QuickTime has a second one for the data
    inner = boxes(stream, (info := _inner(stream, media, b"minf")).content, info.end)
    for one in (handler, *(part for part in inner if part.name == b"hdlr")):
        yield from changed(stream, one.content + 24, bytes(one.end - one.content - 24), says=False)


def _samples(stream: BinaryIO, media: Box) -> Iterator[Edit]:
    """All samples of a track, blanked: chunk by chunk, as its tables say where they lie."""
    table = _inner(stream, _inner(stream, media, b"minf"), b"stbl")
    tables = {part.name: part for part in boxes(stream, table.content, table.end)}
    try:
        wide = b"co64" in tables
        places = _numbers(stream, tables[b"co64" if wide else b"stco"], 4, "Q" if wide else "I")
        runs = _numbers(stream, tables[b"stsc"], 4, "III")
        sizes = _sizes(stream, tables[b"stsz"])
    except KeyError:
        raise Unwalkable from None
    word = b"\xa9xyz" if read(stream, tables[b"stsd"].content + 12, tables[b"stsd"].content + 16) in _CAMERA else b""
    at = 0
    for number, place in enumerate(places, 1):
        many = next((run[1] for run in reversed(runs) if run[0] <= number), 0)
        length = sum(sizes[at : at + many])
        at += many
        yield from changed(stream, place[0], bytes(length), says=False)
    if word:
        yield Edit(media.end, media.end, b"", word)  # nothing is changed here; what was blanked told a place


def _numbers(stream: BinaryIO, box: Box, skipped: int, form: str) -> list[tuple[int, ...]]:
    if box.end - box.content > _LARGEST_HEAD:
        raise Unwalkable
    data = read(stream, box.content + skipped, box.end)
    (count,) = struct.unpack_from(">I", data) if len(data) >= 4 else (0,)
    step = struct.calcsize(f">{form}")
    if len(data) < 4 + count * step:
        raise Unwalkable
    return [*struct.iter_unpack(f">{form}", data[4 : 4 + count * step])]


def _sizes(stream: BinaryIO, box: Box) -> list[int]:
    same, count = struct.unpack(">II", read(stream, box.content + 4, box.content + 12))
    if same:
        return [same] * min(count, 10_000_000)
    return [one[0] for one in _numbers(stream, box, 8, "I")]


def _inner(stream: BinaryIO, box: Box, name: bytes) -> Box:
    found = next((one for one in boxes(stream, box.content, box.end) if one.name == name), None)
    if found is None:
        raise Unwalkable
    return found


def _freed(stream: BinaryIO, box: Box) -> list[Edit]:
    """The box as free space; its length and so all that stands behind it stay."""
    if box.end - box.content > _LARGEST_HEAD:
        raise Unwalkable
    says = box.name not in (b"free", b"skip")
    named = changed(stream, box.start + 4, b"free", says=False) if says else []
    return [*named, *changed(stream, box.content, bytes(box.end - box.content), says=says)]


def _timeless(stream: BinaryIO, box: Box) -> list[Edit]:
    """Without the moments of making and of changing."""
    wide = read(stream, box.content, box.content + 1) == b"\x01"
    return changed(stream, box.content + 4, bytes(16 if wide else 8), says=False)


def is_played(stream: BinaryIO, size: int) -> bool:
    """Whether the film's picture is coded in a way that browsers know."""
    for movie in boxes(stream, 0, size):
        for track in boxes(stream, movie.content, movie.end) if movie.name == b"moov" else ():
            if track.name != b"trak":
                continue
            try:
                media = _inner(stream, track, b"mdia")
                handler = _inner(stream, media, b"hdlr")
                table = _inner(stream, _inner(stream, media, b"minf"), b"stbl")
                samples = _inner(stream, table, b"stsd")
                if read(stream, handler.content + 8, handler.content + 12) == b"vide":
                    return read(stream, samples.content + 12, samples.content + 16) in _PLAYED
            except Unwalkable:
                return False
    return True
