"""Limits held against what the gauge they name can read."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rules.values.bearing import borne
from site_builder.checks.rules.values.held import once, reckoning
from site_builder.checks.rules.values.limits import limits_of, told_in
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.tree import Text
from site_builder.quantity import Bounds, same_dimensions

RANGE = "range"


class Outside(NamedTuple):
    """A limit of which figures lie outside the range of its gauge."""

    gauge: Text
    reads: Bounds
    written: Written
    surely: bool
    """Whether none of its figures can be read, and not as a difference from a setting piece either."""
    owner: str


@once
def outside(analysis: Analysis) -> tuple[Outside, ...]:
    """Every limit that its one gauge cannot read."""
    return tuple(_outside(analysis))


def _outside(analysis: Analysis) -> Iterator[Outside]:
    for limit, place in limits_of(analysis):
        if len(limit.with_) != 1 or str(limit.with_[0]) not in analysis.notebook.tools:
            continue
        ranges = borne(analysis, str(limit.with_[0]), RANGE)
        reads = ranges[0] if len(ranges) == 1 else None
        if reads is None or reads.low is None or reads.high is None:
            continue
        for _, written in told_in(limit):
            found = reckoning(analysis).bounds(written)
            if found is None or found.relative or not same_dimensions(found.unit, reads.unit):
                continue
            told = (found.low, found.aim_low, found.aim_high, found.high)
            figures = [one for one in told if one is not None]
            out = [one for one in figures if not reads.low <= one <= reads.high]
            if out:
                surely = len(out) == len(figures) and not _is_compared(found, figures, reads)
                yield Outside(limit.with_[0], reads, written, surely, place.owner_id)


def _is_compared(found: Bounds, figures: list[Fraction], reads: Bounds) -> bool:
    """Whether a dial could read it as a difference from a setting piece: a length, larger than its range."""
    assert reads.low is not None and reads.high is not None
    width = max(figures) - min(figures)
    return found.kind == "length" and min(figures) > reads.high and width <= reads.high - reads.low
