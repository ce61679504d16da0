"""On which sides a value refuses anything, told from how it is written, without reckoning."""

from __future__ import annotations

from typing import NamedTuple

from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.reckoning import Reckoning
from site_builder.quantity import Ask, Computed, Fit, Limits, Quantity, Range, Reference, Scaled, Some, Toleranced, Word


class Sides(NamedTuple):
    """Whether a value has a least and a most. A side that is still asked for has none yet."""

    low: bool
    high: bool


_NONE = Sides(False, False)
_BOTH = Sides(True, True)


def sides_of(written: Written, held: Reckoning) -> Sides:
    """The sides of a value; where it leans on a name, those of what the name leads to."""
    what = written.value.what
    if isinstance(what, Toleranced | Fit):
        return _BOTH
    if isinstance(what, Limits):
        leads = {clause.lead for clause in what.clauses if type(clause.what) not in (Ask, Some)}
        return Sides(bool(leads & {"min", "over"}), bool(leads & {"max", "under"}))
    if isinstance(what, Range):
        # Nothing is smaller than nought where the range begins there.
        return Sides(not _is_nought(what.low), True)
    if isinstance(what, Word | Reference | Scaled | Computed):
        found = held.bounds(written)
        if found is not None:
            return Sides(found.low is not None or found.low_untold, found.high is not None or found.high_untold)
    return _NONE


def is_plain(written: Written) -> bool:
    """Whether it is a bare figure, or only an aim: nothing says how far off it may be."""
    what = written.value.what
    if isinstance(what, Limits):
        return [clause.lead for clause in what.clauses] == ["aim"]
    return isinstance(what, Quantity)


def is_rough(written: Written) -> bool:
    """Whether it is only `about` so much."""
    what = written.value.what
    return isinstance(what, Limits) and [clause.lead for clause in what.clauses] == ["about"]


def _is_nought(end: object) -> bool:
    return isinstance(end, Quantity) and all(part.number.exact == 0 for part in end.parts)
