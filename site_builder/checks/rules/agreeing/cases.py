"""Values case by case: each variant and each row of a table with its figures, so that only like is held to like."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from typing import NamedTuple

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.sums import ends
from site_builder.notebook.conditions import exclude
from site_builder.notebook.model.entry import Condition
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.ways import row_of
from site_builder.quantity import Bounds


class Case(NamedTuple):
    """A value, its figures, and the case in which it holds."""

    written: Written
    found: Bounds
    condition: Condition

    @property
    def low(self) -> Fraction | None:
        """The least that is told."""
        return ends(self.found)[0]

    @property
    def high(self) -> Fraction | None:
        """The most that is told."""
        return ends(self.found)[1]


def cases(analysis: Analysis, limits: Iterable[Limit]) -> list[Case]:
    """Every value of a name with its case; none at all where one of them cannot be told."""
    out: list[Case] = []
    for limit in limits:
        for rows, cell in limit.cells():
            found = None if cell.written is None else reckoning(analysis).bounds(cell.written)
            if found is None or cell.written is None or found.relative:
                return []
            out.append(Case(cell.written, found, row_of(limit, rows, cell)))
    return out


def meeting(all_cases: Iterable[Case], condition: Condition) -> list[Case]:
    """The cases that can hold together with this one."""
    return [one for one in all_cases if not exclude(one.condition, condition)]


def least(all_cases: Iterable[Case], condition: Condition = ()) -> Fraction | None:
    """The least of the cases that can hold with this one; None where one of them has none."""
    lows = [one.low for one in meeting(all_cases, condition)]
    told = [low for low in lows if low is not None]
    return min(told) if told and len(told) == len(lows) else None


def most(all_cases: Iterable[Case], condition: Condition = ()) -> Fraction | None:
    """The most of them, likewise."""
    highs = [one.high for one in meeting(all_cases, condition)]
    told = [high for high in highs if high is not None]
    return max(told) if told and len(told) == len(highs) else None
