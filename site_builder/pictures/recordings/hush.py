"""A recording of any form we know, without what it says of itself."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from pathlib import Path
from typing import BinaryIO

from site_builder.notebook.picture_facts import Kind, PictureProblem
from site_builder.pictures.recordings import flac, mp3, mp4, ogg, wav, webm
from site_builder.pictures.recordings.splice import Edit, Unwalkable, write_spliced

_PLACE = re.compile(
    rb"\xa9xyz|loci|location\.ISO6709|GPS_?(?:Latitude|Coordinates)|(?:geo_?)?location[_a-z]{0,40}\s{0,9}=|<LOCATION_GPS"
    rb"|[+-]\d{2}\.\d{2,}[+-]\d{3}\.\d{2,}",  # the last is a place as ISO 6709 writes it
    re.IGNORECASE,
)
_UNTOLD = PictureProblem(
    "not-a-picture",
    "The recording is damaged, or laid out in a way we do not know. Save sound as MP3, film as MP4.",
)
_UNPLAYED = PictureProblem(
    "not-a-picture", "This recording cannot be played in a browser. Save sound as MP3, film as MP4."
)


@dataclass(frozen=True, slots=True)
class Hushed:
    """What to change in a recording, and what it said of itself."""

    edits: tuple[Edit, ...] = ()
    speaks: bool = False
    tells_place: bool = False
    problem: PictureProblem | None = None


def hushed(stream: BinaryIO, size: int) -> Hushed:
    """How to take out of a recording all but what is heard and seen. Never raises for what the file holds."""
    try:
        found = _edits(stream, size)
    except (Unwalkable, IndexError, ValueError, OverflowError, MemoryError):
        return Hushed(problem=_UNTOLD)
    words = [edit.words for edit in found if edit.words.strip(b"\0 ")]
    real = tuple(edit for edit in found if edit.end > edit.start)
    if _overlap(real):
        return Hushed(problem=_UNTOLD)
    if _is_quicktime(stream) and not mp4.is_played(stream, size):
        return Hushed(real, bool(words), _tells(words), _UNPLAYED)
    return Hushed(real, bool(words), _tells(words))


def write_hushed(source: Path, target: Path, what: Hushed) -> None:
    """The quiet copy."""
    write_spliced(source, target, what.edits)


def ending(kind: Kind, suffix: str) -> str:
    """The ending of the published copy: a QuickTime film is laid out as an MP4, and played as one."""
    return ".mp4" if kind == "film" and suffix == ".mov" else suffix


def _edits(stream: BinaryIO, size: int) -> list[Edit]:
    stream.seek(0)
    head = stream.read(16)
    if head[4:8] == b"ftyp":
        return mp4.edits(stream, size)
    if head[:4] in (b"RIFF", b"RF64") and head[8:12] == b"WAVE":
        return wav.edits(stream, size)
    if head.startswith(b"OggS"):
        return ogg.edits(stream, size)
    if head.startswith(b"fLaC"):
        return flac.edits(stream, size)
    if head.startswith(b"\x1a\x45\xdf\xa3"):
        return webm.edits(stream, size)
    return mp3.edits(stream, size)


def _is_quicktime(stream: BinaryIO) -> bool:
    stream.seek(4)
    return stream.read(8) == b"ftypqt  "


def _tells(words: Sequence[bytes]) -> bool:
    # ID3 may write two bytes a letter
    return any(_PLACE.search(one) or _PLACE.search(one.replace(b"\0", b"")) for one in words)


def _overlap(edits: Sequence[Edit]) -> bool:
    ordered = sorted(edits, key=lambda one: one.start)
    return any(one.end > other.start for one, other in pairwise(ordered))
