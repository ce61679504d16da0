"""What a whole weighs, wherever it is told: among its sizes and among the limits of the work on it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rules.agreeing.cases import Case, cases, least
from site_builder.checks.rules.values.held import reckoning
from site_builder.notebook.model.entry import Condition
from site_builder.notebook.model.shop import Part
from site_builder.notebook.tree import Text

_NAMED = re.compile(r"(?:mass|weight)(?: of (?:the |a )?(?P<of>.+))?")


class Weighed(NamedTuple):
    """A mass of a part or product, and of what it is said to be."""

    case: Case
    name: str
    step: int
    """The place of its work in the order of the work; -1 among the sizes."""
    owner: str


def weighings(analysis: Analysis, id_: str) -> Iterator[Weighed]:
    """Every mass that is told of a whole."""
    part = analysis.notebook.parts[id_]
    for one in _mass_cases(analysis, part):
        yield Weighed(one, "mass", -1, id_)
    for number, own_id in enumerate(analysis.route.order):
        own = analysis.notebook.procedures.get(own_id)
        if own is None or id_ not in analysis.notebook.makes_of(own):
            continue
        for work in (own, *own.steps):
            for name, limits in work.limits.items():
                if _NAMED.fullmatch(str(name)):
                    for one in cases(analysis, limits):
                        if one.found.kind == "mass":
                            yield Weighed(one, str(name), number, own_id)


def is_whole(analysis: Analysis, id_: str, one: Weighed) -> bool:
    """Whether everything is joined when it is weighed: no later work joins more to it."""
    nb = analysis.notebook
    later = [nb.procedures[own] for own in analysis.route.order[one.step + 1 :] if own in nb.procedures]
    return one.step < 0 or not any(id_ in nb.makes_of(own) and set(map(str, own.part)) - {id_} for own in later)


def of_parts(analysis: Analysis, id_: str, condition: Condition) -> Fraction:
    """The least that the parts of a whole weigh together in this case; a part whose mass is not told weighs nothing."""
    total = Fraction(0)
    for child, count in analysis.notebook.parts[id_].of.items():
        part = analysis.notebook.parts.get(str(child))
        figures = reckoning(analysis).bounds(count)
        number = None if figures is None or figures.kind != "count" else (figures.low or figures.aim_low)
        mass = least(_mass_cases(analysis, part), condition) if part is not None else None
        if number is not None and mass is not None:
            total += number * mass
    return total


def _mass_cases(analysis: Analysis, part: Part) -> list[Case]:
    return [one for one in cases(analysis, part.sizes.get(Text("mass"), ())) if one.found.kind == "mass"]
