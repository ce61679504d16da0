"""What is said when a notation cannot be read."""

from __future__ import annotations

from typing import Literal

Code = Literal[
    "unit-missing",
    "unit-unknown",
    "unit-wrong-kind",
    "decimal-comma",
    "range-hyphen",
    "range-mixed",
    "range-backward",
    "aim-outside",
    "clause-bare",
    "whichever-missing",
    "value-broken",
]


class NotationError(ValueError):
    """A text that is no value, cadence, moment, trend or date.

    ``code`` names the finding, ``message`` says it in one or two sentences, ``mend`` is the text to write
    instead ("" where we cannot know it), ``start`` and ``end`` are offsets into the text as it was given.
    """

    def __init__(self, code: Code, message: str, *, fix: str = "", start: int = 0, end: int = 0) -> None:
        super().__init__(message)
        self.code: Code = code
        self.message = message
        self.fix = fix
        self.start = start
        self.end = end

    def move(self, where: list[int] | None) -> None:
        """Tell the place in the text as it was given; ``where`` maps offsets of the text that was read."""
        if where is not None:
            self.start, self.end = (where[min(at, len(where) - 1)] for at in (self.start, self.end))

    def shift(self, by: int, last: int) -> None:
        """Tell the place in a longer text in which this one stands at ``by``, not beyond ``last``."""
        self.start, self.end = (max(0, min(at + by, last)) for at in (self.start, self.end))

    def __str__(self) -> str:
        return f"{self.code}: {self.message}"
