"""Rules on values that cannot all be kept."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.between import least_between
from site_builder.checks.rules.values.crossed import crossed, is_time_between
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.sums import ends, shown, sums
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Limit, Window
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.names import NamedValue
from site_builder.notebook.tree import Text
from site_builder.quantity import Bounds, same_dimensions


def window_empty(analysis: Analysis) -> Iterator[Found]:
    for leaf, place, least, most in crossed(analysis):
        if is_time_between(place):
            yield Found(
                leaf.at, f"`{leaf}` leaves nothing: {least} at the least, {most} at the most.",
                "Put right one of the two sides, or the value that the name leads to.", place.owner_id,
            )


WINDOW_EMPTY = Rule(
    "window-empty", Level.ERROR, "A window that closes before it opens.",
    "One must wait four hours, and after five minutes it is too late. Nobody can keep both.",
    """\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
materials: filler
steps:
  - id: mix
    do: Mix the filler.
  - do: Press it in.
    windows:
✓       working time: {is: max pot life, after: mix, above: {do: Throw it away., then: mix}}
✗       working time: {is: ▸min 4 h; max pot life, after: mix, above: {do: Throw it away., then: mix}}
=== tools/materials/filler.yml
material: filler
title: Two-part filler
properties: {pot life: about 5 min}
""", window_empty,
)


def window_impossible(analysis: Analysis) -> Iterator[Found]:
    held = reckoning(analysis)
    for window, place in analysis.index.of(Window):
        least = least_between(analysis, window, place)
        if not least:
            continue
        told = [
            (cell.written, found) for (_, cell), found in zip(window.cells(), held.bounds_of(window), strict=False)
            if cell.written is not None and found is not None and found.kind == "time" and found.high is not None
        ]
        # With a table only where every row is too short.
        if told and len(told) == len(list(window.cells())) and all(least > (one.high or 0) for _, one in told):
            written, found = told[0]
            yield Found(
                written.at,
                f"The steps between take {shown(found, least)} at the least, and the window closes after "
                f"{shown(found, found.high or least)}.",
                "Put right the window, the times and waits of the steps, or the moments it is counted between.",
                place.owner_id,
            )


WINDOW_IMPOSSIBLE = Rule(
    "window-impossible", Level.ERROR, "The steps between two moments take longer than their window is open.",
    "Even the quickest hands come too late. Either the window or the times of the steps are wrong.",
    """\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
materials: filler
steps:
  - id: mix
    do: Mix the filler.
✓   - {do: Warm the foot., time: 3 min}
✗   - {do: Warm the foot., time: 20 min}
  - do: Press it in.
    windows:
      working time: {is: ▸max pot life, after: mix, above: {do: Throw it away., then: mix}}
=== tools/materials/filler.yml
material: filler
title: Two-part filler
properties: {pot life: about 5 min}
""", window_impossible,
)


def sum_impossible(analysis: Analysis) -> Iterator[Found]:
    for _, written, place, whole, parts in sums(analysis):
        low, high = ends(parts)
        if whole.high is not None and low is not None and low > whole.high:
            told = f"The parts come to {shown(whole, low)} at least, which is over `{written}`."
        elif whole.low is not None and high is not None and high < whole.low:
            told = f"The parts come to {shown(whole, high)} at most, which is under `{written}`."
        else:
            continue
        yield Found(written.at, told, "Put right the limits of the parts, or the limit of their sum.", place.owner_id)


SUM_IMPOSSIBLE = Rule(
    "sum-impossible", Level.ERROR, "A limit on a sum that its parts cannot keep.",
    "Even when every part is at its best the sum is refused, or a sum that must be reached never is.",
    """\
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
steps:
  - id: prime
    do: Spray the primer.
    limits: {primer: 15..25 µm}
  - id: paint
    do: Spray the enamel.
    limits: {enamel: 25..35 µm}
limits:
✓   whole film: {is: 40..60 µm, sum: [prime/primer, paint/enamel]}
✗   whole film: {is: ▸max 35 µm, sum: [prime/primer, paint/enamel]}
""", sum_impossible,
)


def sizes_disagree(analysis: Analysis) -> Iterator[Found]:
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


SIZES_DISAGREE = Rule(
    "sizes-disagree", Level.ERROR, "One size of one part, told twice with limits that exclude each other.",
    "A foot that passes the one check fails the other. One of the two figures is old.",
    """\
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
✓ limits: {height: 42 ±0.1 mm}
✗ limits: {height: ▸32 ±0.1 mm}
""", sizes_disagree,
)
