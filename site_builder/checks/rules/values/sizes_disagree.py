from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.sums import ends
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.names import NamedValue
from site_builder.notebook.tree import Text
from site_builder.quantity import Bounds, same_dimensions


def check(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    sized = {str(name) for part in nb.parts.values() for name in part.sizes}
    limited = {
        place.owner_id: place.owner
        for _, place in analysis.index.of(Limit)
        if place.key == "limits" and place.name in sized and isinstance(place.owner, Procedure)
    }
    order = {id_: number for number, id_ in enumerate(analysis.route.order)} if limited else {}
    last: dict[tuple[str, str], NamedValue] = {}
    # A size changes on the way; what the last work leaves is the size of the part.
    for id_ in sorted(limited, key=lambda id_: order.get(id_, 0)):
        for value in analysis.references.values_in(limited[id_], "procedure"):
            own = limited[id_]
            # Where several are joined, what is measured is the whole.
            sized_here = nb.parts_of(own) if len(own.part) < 2 else nb.makes_of(own) if own.makes else ()
            for part in sized_here if value.key == "limits" else ():
                if part in nb.parts and value.name in nb.parts[part].sizes:
                    last[part, value.name] = value
    for (part, name), value in last.items():
        yield from _compare(analysis, part, name, value)


def _compare(analysis: Analysis, part: str, name: str, value: NamedValue) -> Iterator[Found]:
    held, title = reckoning(analysis), analysis.notebook.parts[part].title
    sizes = analysis.notebook.parts[part].sizes[Text(name)]
    wanted = [found for limit in sizes for found in held.bounds_of(limit)]
    made = held.each(value)
    told = [(one, other) for one in made for other in wanted if one is not None and other is not None]
    if len(told) == len(made) * len(wanted) and told and not any(_meet(one, other) for one, other in told):
        here, there = _written(value.limits), _written(sizes)
        if here and there:
            yield Found(
                here[0].at, f"The {name} is `{here[0]}` here, but `{there[0]}` among the sizes of “{title}”.",
                f"Write the size once, under the part, and here `{part}/{name}`.", value.owner_id,
            )


def _written(limits: tuple[Limit, ...]) -> list[Written]:
    return [cell.written for limit in limits for _, cell in limit.cells() if cell.written is not None]


def _meet(one: Bounds, other: Bounds) -> bool:
    """Whether a size can keep both; what cannot be compared is not held against one another."""
    if not same_dimensions(one.unit, other.unit):
        return True
    (low, high), (least, most) = ends(one), ends(other)
    over = low is not None and most is not None and low > most
    under = high is not None and least is not None and high < least
    return not (over or under)


RULE = Rule(
    code="sizes-disagree",
    level=Level.ERROR,
    summary="One size of one part, told twice with limits that exclude each other.",
    reason="A foot that passes the one check fails the other. One of the two figures is old.",
    passes="""\
=== procedures/shop.yml
shop: corvane
title: The Corvane Lantern
parts:
  foot: {title: Foot, sizes: {height: 42 ±0.2 mm}}
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
part: foot
steps: Sweep it along the belt.
limits: {height: 42 ±0.1 mm}
""",
    fails="""\
=== procedures/shop.yml
shop: corvane
title: The Corvane Lantern
parts:
  foot: {title: Foot, sizes: {height: 42 ±0.2 mm}}
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
part: foot
steps: Sweep it along the belt.
limits: {height: ▸32 ±0.1 mm}
""",
    check=check,
)
