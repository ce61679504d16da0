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

    def __init__(self, code: Code, message: str, *, mend: str = "", start: int = 0, end: int = 0) -> None:
        super().__init__(message)
        self.code: Code = code
        self.message = message
        self.mend = mend
        self.start = start
        self.end = end

    def __str__(self) -> str:
        return f"{self.code}: {self.message}"
