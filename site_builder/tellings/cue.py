"""A cue: what was said in one breath, with its times; a transcript: all of them in order."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


class TranscriptError(ValueError):
    """A transcript that cannot be read: what is wrong, at which line (from 1), and what to do."""

    def __init__(self, line: int, message: str, fix: str) -> None:
        super().__init__(f"line {line}: {message} {fix}")
        self.line = line
        self.message = message
        self.fix = fix


@dataclass(frozen=True, slots=True)
class Cue:
    """What was said, by whom if that is known, and from when to when in seconds (None: no times are known)."""

    id: str
    text: str
    start: Fraction | None = None
    end: Fraction | None = None
    speaker: str = ""

    def overlaps(self, start: Fraction, end: Fraction) -> bool:
        """Whether some of it was said between two moments in seconds; never where no times are known."""
        return self.start is not None and self.end is not None and self.start < end and start < self.end


@dataclass(frozen=True, slots=True)
class Remark:
    """Something in a transcript that was read with a doubt, or passed over, at its line."""

    line: int
    message: str


@dataclass(frozen=True, slots=True)
class Transcript:
    """The cues in order; what was odd about the file."""

    cues: tuple[Cue, ...]
    remarks: tuple[Remark, ...] = ()

    @property
    def timed(self) -> bool:
        """Whether times are known, so that a moment can be played."""
        return any(cue.start is not None for cue in self.cues)

    @property
    def end(self) -> Fraction | None:
        """The last moment at which something is said, in seconds."""
        return max((cue.end for cue in self.cues if cue.end is not None), default=None)

    def cue(self, id_: str) -> Cue | None:
        """The cue of this name."""
        return next((cue for cue in self.cues if cue.id == id_), None)

    def between(self, start: Fraction, end: Fraction) -> tuple[Cue, ...]:
        """The cues of which some was said between two moments in seconds."""
        return tuple(cue for cue in self.cues if cue.overlaps(start, end))
