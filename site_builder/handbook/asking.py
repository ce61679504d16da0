"""How the questions are laid out: one page for those of a small shop, several sheets for those of a large one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby

from site_builder.checks.interview import Sitting

ON_ONE_PAGE = 300
"""So many questions still stand on one page."""
ON_A_SHEET = 200
"""So many stand on a sheet of several; what there is to ask of one thing is never torn apart."""


@dataclass(frozen=True, slots=True)
class AskingSheet:
    """The sittings of one page. ``who`` is empty where it holds those of everybody, or nobody is known to ask."""

    src_uri: str
    who: tuple[str, ...]
    number: int
    sittings: tuple[Sitting, ...]

    @property
    def count(self) -> int:
        """How many questions it asks."""
        return sum(len(sitting.questions) for sitting in self.sittings)


def asking_sheets(sittings: Sequence[Sitting], home: str) -> tuple[AskingSheet, ...]:
    """The one page at ``home``, or sheets in the folder of its name, numbered within those for the same people."""
    if sum(len(sitting.questions) for sitting in sittings) <= ON_ONE_PAGE:
        return (AskingSheet(home, (), 1, tuple(sittings)),)
    folder = home.removesuffix(".md")
    sheets: list[AskingSheet] = []
    for who, group in groupby(sittings, key=lambda sitting: sitting.who):
        name = who[0] if who else "whoever-knows"
        taken = sum(sheet.src_uri.rpartition("/")[2].startswith(f"{name}-sheet-") for sheet in sheets)
        for number, part in enumerate(_parted(list(group)), 1):
            sheets.append(AskingSheet(f"{folder}/{name}-sheet-{taken + number}.md", who, number, part))
    return tuple(sheets)


def _parted(sittings: Sequence[Sitting]) -> Iterator[tuple[Sitting, ...]]:
    part: list[Sitting] = []
    for sitting in sittings:
        if part and sum(len(one.questions) for one in (*part, sitting)) > ON_A_SHEET:
            yield tuple(part)
            part = []
        part.append(sitting)
    if part:
        yield tuple(part)


def page_of_each(sheets: Sequence[AskingSheet]) -> Mapping[tuple[str, int], str]:
    """(path, line) of every question to the page on which it is asked."""
    found: dict[tuple[str, int], str] = {}
    for sheet in sheets:
        for sitting in sheet.sittings:
            for question in sitting.questions:
                found.setdefault((question.at.path, question.at.line), sheet.src_uri)
    return found
