"""Values whose least is over their most, once the names and the calendar in them are followed."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.sums import shown
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.quantity import Limits, Same

_PERIODS = {"day": Fraction(86400), "shift": Fraction(86400), "week": Fraction(604800)}
"""Longer than this no `same day` can last, whenever it begins."""


def crossed(analysis: Analysis) -> Iterator[tuple[Written, Place, str, str]]:
    """Every such value with its place, its least and its most in words.

    What is crossed by its figures alone, the reader finds.
    """
    held = reckoning(analysis)
    for naming in {id(one.within): one for one in held.namings if one.within is not None}.values():
        leaf, place = naming.within, naming.place
        found = None if leaf is None else held.bounds(leaf)
        if leaf is None or found is None or found.low is None or found.high is None:
            continue
        if found.low > found.high or (found.low == found.high and not (found.low_in and found.high_in)):
            yield leaf, place, shown(found, found.low), shown(found, found.high)
    for leaf, place, _ in analysis.index.values:
        what = leaf.value.what
        if type(what) is Limits and len(what.clauses) > 1:
            same = next((clause.what for clause in what.clauses if isinstance(clause.what, Same)), None)
            found = None if same is None else held.bounds(leaf)
            if same is None or found is None or found.low is None:
                continue
            if found.low >= _PERIODS[same.period]:
                yield leaf, place, shown(found, found.low), f"the same {same.period}"


def is_time_between(place: Place) -> bool:
    """Whether the value is a window or a wait."""
    return any(outer.key in ("windows", "wait") for outer in place.up() if isinstance(outer.entry, Limit))
