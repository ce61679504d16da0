"""Splices: from here to there these letters, or bytes, are replaced by those."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

BOM = b"\xef\xbb\xbf"


@dataclass(frozen=True, slots=True, order=True)
class Splice:
    """``before`` stands at ``start`` of a text (in letters); ``after`` shall stand in its place."""

    start: int
    before: str
    after: str

    @property
    def end(self) -> int:
        return self.start + len(self.before)


@dataclass(frozen=True, slots=True, order=True)
class ByteSplice:
    """The same in the bytes of a file: ``start`` counts bytes of the file as it was."""

    start: int
    before: bytes
    after: bytes

    @property
    def end(self) -> int:
        return self.start + len(self.before)


def spliced(data: bytes, splices: Iterable[ByteSplice]) -> bytes:
    """The bytes with all splices made. Raises ValueError where they do not stand as the splices say."""
    out: list[bytes] = []
    at = 0
    for splice in sorted(splices, key=lambda one: (one.start, one.end)):
        if splice.start < at or data[splice.start : splice.end] != splice.before:
            raise ValueError(splice.start)
        out += [data[at : splice.start], splice.after]
        at = splice.end
    return b"".join([*out, data[at:]])


def turned_back(splices: Iterable[ByteSplice]) -> tuple[ByteSplice, ...]:
    """The splices that make the old bytes out of the new ones."""
    out: list[ByteSplice] = []
    shift = 0
    for splice in sorted(splices, key=lambda one: (one.start, one.end)):
        out.append(ByteSplice(splice.start + shift, splice.after, splice.before))
        shift += len(splice.after) - len(splice.before)
    return tuple(out)


def joined(splices: Iterable[Splice], text: str) -> list[Splice]:
    """Splices in order, those that touch made one. Raises ValueError where two of them overlap."""
    out: list[Splice] = []
    for splice in sorted(splices, key=lambda one: (one.start, one.end)):
        if out and splice.start < out[-1].end:
            raise ValueError(splice.start)
        if out and splice.start == out[-1].end:
            last = out.pop()
            out.append(Splice(last.start, last.before + splice.before, last.after + splice.after))
        else:
            out.append(splice)
    return [_least(one) for one in out if one.before != one.after and text.startswith(one.before, one.start)]


def _least(splice: Splice) -> Splice:
    """What is the same at both ends of old and new is left alone."""
    before, after, start = splice.before, splice.after, splice.start
    same = 0
    while same < min(len(before), len(after)) and before[same] == after[same]:
        same += 1
    before, after, start = before[same:], after[same:], start + same
    same = 0
    while same < min(len(before), len(after)) and before[-1 - same] == after[-1 - same]:
        same += 1
    return Splice(start, before[: len(before) - same], after[: len(after) - same])


def in_bytes(data: bytes, splices: Iterable[Splice]) -> tuple[ByteSplice, ...]:
    """Splices of letters as splices of the bytes from which the letters were read.

    The letters are those without byte order mark, every line end one ``\\n``. New lines end as those around them.
    """
    raw = data.removeprefix(BOM).decode("utf-8")
    at = _Places(raw, len(data) - len(data.removeprefix(BOM)))
    out = []
    for splice in splices:
        start, end = at.letter(splice.start), at.letter(splice.end)
        after = splice.after.replace("\n", _line_end(raw, start))
        out.append(ByteSplice(at.byte(start), raw[start:end].encode("utf-8"), after.encode("utf-8")))
    return tuple(out)


class _Places:
    """From letters of the text to letters and bytes of the file."""

    def __init__(self, raw: str, before: int) -> None:
        self.raw = raw
        self.before = before
        self.pairs = [] if "\r\n" not in raw else [i for i in range(len(raw) - 1) if raw[i : i + 2] == "\r\n"]

    def letter(self, place: int) -> int:
        """The letter of the file: each line end of two letters that stands before it counts one more."""
        low, high = 0, len(self.pairs)
        while low < high:
            middle = (low + high) // 2
            if self.pairs[middle] - middle < place:
                low = middle + 1
            else:
                high = middle
        return place + low

    def byte(self, letter: int) -> int:
        return self.before + len(self.raw[:letter].encode("utf-8"))


def _line_end(raw: str, at: int) -> str:
    """The line end nearest to a place: the one behind it, else the one before."""
    for end in (raw.find("\n", at), raw.rfind("\n", 0, at)):
        if end >= 0:
            return "\r\n" if end > 0 and raw[end - 1] == "\r" else "\n"
    return "\r" if "\r" in raw else "\n"
