from __future__ import annotations

from collections.abc import Iterator, Mapping

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing.cases import Case, cases, meeting
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.tree import Text
from site_builder.quantity import same_dimensions

ORDER = (
    ("solidus", "liquidus", 1), ("solidus", "boiling point", 1), ("liquidus", "boiling point", 1),
    ("melting point", "boiling point", 1), ("liquidus", "casting temperature", 1),
    ("liquidus", "pouring temperature", 1), ("least size", "wheel size", 1),
    ("shelf life after opening", "shelf life", 1), ("yield strength", "tensile strength", 1),
    ("shear strength", "tensile strength", 1), ("dry film", "wet film", 1), ("touch dry", "hard dry", 1),
    ("inside", "outside", 1), ("inner diameter", "outer diameter", 1), ("bore", "outside", 1),
    ("wall", "outside", 2), ("wall thickness", "outside", 2), ("thread engagement", "length", 1),
)  # fmt: skip
"""Which name can never be over which, and how many of the first go into the second: a tube has two walls."""
_LESS = ("least ", "lowest ", "smallest ", "shortest ", "min ")
_MORE = ("greatest ", "highest ", "largest ", "longest ", "most ", "max ")
_LISTS = ("properties", "sizes", "settings", "conditions", "limits")


def check(analysis: Analysis) -> Iterator[Found]:
    seen: set[int] = set()
    for _, place in analysis.index.of(Limit):
        if place.key not in _LISTS or place.parent is None:
            continue
        named: Mapping[Text, tuple[Limit, ...]] = getattr(place.parent.entry, place.key)
        if len(named) > 1 and id(named) not in seen:
            seen.add(id(named))
            for lower, upper, times in _pairs(named):
                yield from _compare(analysis, place, lower, upper, times)


def _pairs(named: Mapping[Text, tuple[Limit, ...]]) -> Iterator[tuple[Text, Text, int]]:
    own = {str(name): name for name in named}
    for lower, upper, times in ORDER:
        if lower in own and upper in own:
            yield own[lower], own[upper], times
    for less in _LESS:
        for name in own:
            if name.startswith(less):
                rest = name.removeprefix(less)
                for upper in (rest, *(more + rest for more in _MORE)):
                    if upper in own and (name, upper) not in {(one, other) for one, other, _ in ORDER}:
                        yield own[name], own[upper], 1
    for more in _MORE:
        for name in own:
            if name.startswith(more) and name.removeprefix(more) in own:
                yield own[name.removeprefix(more)], own[name], 1


def _compare(analysis: Analysis, place: Place, lower: Text, upper: Text, times: int) -> Iterator[Found]:
    assert place.parent is not None
    named = getattr(place.parent.entry, place.key)
    over = cases(analysis, named[upper])
    for one in cases(analysis, named[lower]):
        against = meeting(over, one.condition)
        if one.low is not None and against and all(_past(one, other, times) for other in against):
            both = "Twice " if times == 2 else ""
            yield Found(
                one.written.at, f"{both}`{lower}` {one.written} is over `{upper}` {against[0].written}.",
                f"Put right `{lower}` or `{upper}`; it may be that the two were swapped.", place.owner_id,
            )


def _past(one: Case, other: Case, times: int) -> bool:
    return (one.low is not None and other.high is not None and same_dimensions(one.found.unit, other.found.unit)
            and times * one.low > other.high)


RULE = Rule(
    code="names-crossed",
    level=Level.ERROR,
    summary="Two values of which one can never be over the other, and is.",
    reason=(
        "Metal melts at its solidus and is all liquid at its liquidus; a wheel is never smaller than its least size; "
        "the lowest of a thing is not over its highest."
    ),
    passes="""\
=== tools/materials/brass.yml
material: brass
title: Brass
properties: {solidus: 902 °C, liquidus: 920 °C}
""",
    fails="""\
=== tools/materials/brass.yml
material: brass
title: Brass
properties: {solidus: ▸932 °C, liquidus: 920 °C}
=== tools/tooling/mop.yml
tooling: mop
title: Mop
properties: {wheel size: 250 mm, least size: ▸300 mm}
""",
    check=check,
)
