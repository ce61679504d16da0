from __future__ import annotations

from collections.abc import Iterator, Sequence

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.conditions import meet
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.quantity import Bounds, bounds, same_dimensions


def check(analysis: Analysis) -> Iterator[Found]:
    things = analysis.notebook.things
    for member, groups in analysis.notebook.groups.items():
        for group in groups:
            if member not in things:
                continue
            of_all = things[group].properties
            for name, limits in things[member].properties.items():
                one, other = _only(limits), _only(of_all.get(name, ()))
                if one is not None and other is not None and _contradict(one, other):
                    yield Found(
                        one.at, f"“{things[group].title}” says {other} for the {name} of all its members; here it says "
                        f"{one}.",
                        "Mend the one that is wrong, or take it out of the group and write it with each member.",
                        member,
                    )


def _only(limits: Sequence[Limit]) -> Written | None:
    """The value of a property that is the same in every case."""
    if len(limits) != 1 or limits[0].for_ or limits[0].given or limits[0].follows:
        return None
    return limits[0].written


def _contradict(one: Written, other: Written) -> bool:
    """Whether no figure is right for both. What is rough or doubted contradicts nothing."""
    a, b = _figures(one), _figures(other)
    return a is not None and b is not None and same_dimensions(a.unit, b.unit) and not meet(a, b) and not _touch(a, b)


def _figures(written: Written) -> Bounds | None:
    found = bounds(written.value)
    if written.value.perhaps or found is None or found.rough or found.relative:
        return None
    return found


def _touch(a: Bounds, b: Bounds) -> bool:
    """Whether two limits share the figure at their end."""
    return (a.high is not None and a.high == b.low) or (b.high is not None and b.high == a.low)


RULE = Rule(
    code="property-doubled",
    level=Level.ERROR,
    summary="A thing contradicts the group it belongs to.",
    reason="What a group says holds for all of its members. Of two figures that exclude each other one is wrong, "
    "and the reader takes the one he sees first.",
    passes="""\
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: Belt, P80
properties: {rated speed: max 30 m/s}
=== tools/tooling/belts.yml
tooling: belts
title: Belts
members: belt-p80
properties: {rated speed: max 32 m/s}
""",
    fails="""\
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: Belt, P80
properties: {rated speed: ▸min 40 m/s}
=== tools/tooling/belts.yml
tooling: belts
title: Belts
members: belt-p80
properties: {rated speed: max 32 m/s}
""",
    check=check,
)
