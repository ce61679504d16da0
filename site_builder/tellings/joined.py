"""The cues as one run of words, since a sentence runs on from cue to cue; and back to the cue in which a word
stands.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from site_builder.tellings.cue import Cue

LONG_PAUSE = Fraction(4)
"""Seconds of silence after which nobody goes on with the same sentence (our own choice)."""


@dataclass(frozen=True, slots=True)
class Joined:
    """The words of all cues, and where each begins."""

    text: str
    starts: tuple[int, ...]

    def cue_at(self, offset: int) -> int:
        """The number of the cue (from 0) in which this letter stands."""
        return max(0, bisect_right(self.starts, offset) - 1)


def join(cues: Sequence[Cue]) -> Joined:
    """Cue after cue; where another voice or a long pause comes between, the sentence ends."""
    pieces: list[str] = []
    starts: list[int] = []
    length = 0
    before: Cue | None = None
    for cue in cues:
        if before is not None:
            gap = " . " if _breaks(before, cue) else " "
            pieces.append(gap)
            length += len(gap)
        starts.append(length)
        pieces.append(cue.text)
        length += len(cue.text)
        before = cue
    return Joined("".join(pieces), tuple(starts))


def _breaks(before: Cue, after: Cue) -> bool:
    if before.speaker and after.speaker and before.speaker != after.speaker:
        return True
    return before.end is not None and after.start is not None and after.start - before.end > LONG_PAUSE
