"""One of several that can be chosen."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Choice:
    """One row to choose: what is sent, what is read, and a word beside it."""

    value: str
    words: str
    beside: str = ""
