"""By which words a feel trial judges: good and bad, or the grades that the work it was taken at is sorted by."""

from __future__ import annotations

from collections.abc import Mapping

from site_builder.notebook.index import Index
from site_builder.notebook.model.judging import Check

PLAIN = ("bad", "good")
"""Worst first."""


class Grading:
    """The grades of every piece of work, as its checks tell them: the best is written first."""

    def __init__(self, index: Index) -> None:
        self._grades: dict[str, tuple[str, ...]] = {}
        for check, place in index.of(Check):
            if check.grades and place.procedure is not None:
                step = f"/{place.step.id}" if place.step is not None and place.step.id is not None else ""
                self._grades.setdefault(place.owner_id + step, tuple(map(str, check.grades)))

    def scale(self, felt: str) -> tuple[str, ...]:
        """The verdicts on the work at ``felt``, worst first: below all its grades is what is bad."""
        grades = self._grades.get(felt)
        return ("bad", *reversed(grades)) if grades else PLAIN

    def scale_of(self, felt: str, pairs: Mapping[str, tuple[str, str]]) -> tuple[str, ...]:
        """The scale by which these verdicts were given."""
        return PLAIN if all(one in PLAIN for pair in pairs.values() for one in pair) else self.scale(felt)
