"""WebM and Matroska (RFC 8794, RFC 9559): tags, attachments, names and days become void."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import BinaryIO

from site_builder.pictures.recordings.splice import Edit, Unwalkable, changed, read

_SEGMENT, _CLUSTER, _INFO, _TRACKS, _TRACK = 0x18538067, 0x1F43B675, 0x1549A966, 0x1654AE6B, 0xAE
_VOID, _CHECK = 0xEC, 0xBF
_KEPT = frozenset((0x114D9B74, _CLUSTER, 0x1C53BB6B))  # seek head, clusters, cues
_OUTER = frozenset((_SEGMENT, 0x1A45DFA3, 0x1254C367, 0x1941A469, 0x1043A770, _INFO, _TRACKS)) | _KEPT
_APPS = (0x4D80, 0x5741)
"""The programs that wrote it; their names must stand there, so they become blanks."""
_INFO_KEPT = frozenset((0x2AD7B1, 0x4489, 0x73A4))  # scale of time, length, number of the segment
_TRACK_NAME = 0x536E
_LARGEST = 64_000_000


@dataclass(frozen=True, slots=True)
class _Element:
    name: int
    start: int
    content: int
    end: int | None
    """None where the length was not known when it was written: it goes on to the next of its rank."""


def edits(stream: BinaryIO, size: int) -> list[Edit]:
    """What must be changed in the file."""
    found: list[Edit] = []
    at, seen = 0, False
    while at < size:
        element = _element(stream, at, size)
        if element.name == _SEGMENT:
            seen = True
            end = size if element.end is None else element.end
            for part in _parts(stream, element.content, end):
                found += _outer(stream, part)
            at = end
        elif element.end is None or element.name not in (0x1A45DFA3, _VOID):
            raise Unwalkable
        else:
            at = element.end
    if not seen:
        raise Unwalkable
    return found


def _outer(stream: BinaryIO, part: _Element) -> Iterator[Edit]:
    if part.name in _KEPT:
        return
    if part.end is None:
        raise Unwalkable
    if part.name == _INFO:
        for one in _parts(stream, part.content, part.end):
            if one.name in _APPS:
                yield from changed(stream, one.content, b" " * (_end(one) - one.content), says=False)
            elif one.name not in _INFO_KEPT:
                yield from _voided(stream, one)
    elif part.name == _TRACKS:
        for track in _parts(stream, part.content, part.end):
            if track.name != _TRACK:
                yield from _voided(stream, track)
                continue
            for one in _parts(stream, track.content, _end(track)):
                if one.name in (_TRACK_NAME, _CHECK):
                    yield from _voided(stream, one)
    else:
        yield from _voided(stream, part)


def _parts(stream: BinaryIO, start: int, end: int) -> Iterator[_Element]:
    while start < end:
        element = _element(stream, start, end)
        yield element
        if element.end is not None:
            start = element.end
        elif element.name == _CLUSTER:
            start = element.content
            while start < end and (inner := _element(stream, start, end)).name not in _OUTER:
                start = _end(inner)
        else:
            raise Unwalkable


def _element(stream: BinaryIO, at: int, end: int) -> _Element:
    head = read(stream, at, min(end, at + 12))
    width = 9 - head[0].bit_length()
    if width > 4 or len(head) <= width:
        raise Unwalkable
    many = 9 - head[width].bit_length()
    if many > 8 or len(head) < width + many:
        raise Unwalkable
    length = int.from_bytes(head[width : width + many], "big") & ((1 << 7 * many) - 1)
    content = at + width + many
    if length == (1 << 7 * many) - 1:
        return _Element(int.from_bytes(head[:width], "big"), at, content, None)
    if content + length > end:
        raise Unwalkable
    return _Element(int.from_bytes(head[:width], "big"), at, content, content + length)


def _end(element: _Element) -> int:
    if element.end is None:
        raise Unwalkable
    return element.end


def _voided(stream: BinaryIO, element: _Element) -> list[Edit]:
    """The element as one that says nothing, with the same length."""
    end = _end(element)
    if element.name == _VOID:
        return changed(stream, element.content, bytes(end - element.content), says=False)
    length = end - element.start
    if length > _LARGEST:
        raise Unwalkable
    if length - 2 < 127:
        new = bytes([_VOID, 0x80 | length - 2]) + bytes(length - 2)
    else:
        new = bytes([_VOID, 0x01]) + (length - 9).to_bytes(7, "big") + bytes(length - 9)
    return changed(stream, element.start, new, says=element.name != _CHECK)
