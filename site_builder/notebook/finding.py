"""A finding: one thing to mend, to doubt or to ask, at one place in one file."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple


class Level(StrEnum):
    """How much a finding weighs; the order is the order of the summary."""

    ERROR = "error"
    WARNING = "warning"
    QUESTION = "question"


class At(NamedTuple):
    """A place: path relative to the notebook (with ``/``), line and column from 1."""

    path: str
    line: int = 1
    column: int = 1


class Found(NamedTuple):
    """What a rule reports; the engine stamps code and level on it."""

    at: At
    message: str
    fix: str = ""
    about: str = ""
    """Id of the procedure, tool, person … that the finding is about, if not plain from the file."""


@dataclass(frozen=True, slots=True, order=True)
class Finding:
    """One finding, ordered by its place."""

    at: At
    code: str
    level: Level
    message: str
    fix: str = ""
    about: str = ""

    def line(self) -> str:
        """The finding in one line, as editors and terminals expect it."""
        return f"{self.at.path}:{self.at.line}:{self.at.column}: {self.level}[{self.code}] {self.message}"
