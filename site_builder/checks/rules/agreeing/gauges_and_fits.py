"""Rules on gauges, fits and grits that contradict each other."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing.gauge_ranges import outside
from site_builder.checks.rules.values.bearing import borne, past, told
from site_builder.figures.grits import Sanding, sandings
from site_builder.formulas.errors import Impossible
from site_builder.formulas.grits import grain_size
from site_builder.notebook.conditions import exclude
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Work
from site_builder.notebook.model.things import HandTool, Machine, Material, Thing, Tooling
from site_builder.notebook.tree import Text
from site_builder.quantity import Word

FITS = frozenset({
    "wheel size", "belt width", "belt length", "belt size", "bore", "shank", "arbor", "spindle thread", "collet",
    "taper", "blade length", "blade width", "die size", "chuck size", "mandrel", "swing", "tang",
})  # fmt: skip
"""Properties by which a tooling fits its machine, told of both under one name."""
STOCK = ("thickness", "width", "diameter", "gauge")
"""Properties of a material that a machine takes up to a size: `thickness` of a sheet, `sheet thickness` of shears."""


def fit_misfit(analysis: Analysis) -> Iterator[Found]:
    nb, seen = analysis.notebook, set()
    for own in nb.procedures.values():
        for work in (own, *own.steps):
            tools = [str(use.tool) for one in (own, work) for use in one.tools if not use.or_]
            machines = [one for one in dict.fromkeys(tools) if isinstance(nb.tools.get(one), Machine | HandTool)]
            for thing_id, names in _carried(analysis, own, work, tools):
                for name, machine_name, machine in _matches(analysis, thing_id, names, machines):
                    found = _misfit(analysis, thing_id, name, machine, machine_name)
                    if found is not None and (thing_id, name, machine) not in seen:
                        seen.add((thing_id, name, machine))
                        yield found


def _carried(analysis: Analysis, own: Work, work: Work, tools: list[str]) -> Iterator[tuple[str, tuple[str, ...]]]:
    nb = analysis.notebook
    for id_ in dict.fromkeys(tools):
        if isinstance(nb.tools.get(id_), Tooling):
            yield id_, tuple(FITS)
    for id_ in dict.fromkeys(str(use.material) for one in (own, work) for use in one.materials if not use.or_):
        if isinstance(nb.materials.get(id_), Material):
            yield id_, STOCK


def _matches(
    analysis: Analysis, thing_id: str, names: tuple[str, ...], machines: list[str]
) -> Iterator[tuple[str, str, str]]:
    """Each property of the thing with the one machine of the work that has it too."""
    nb = analysis.notebook
    thing: Thing = nb.things[thing_id]
    for name in names:
        if Text(name) not in thing.properties:
            continue
        having = [
            (id_, own) for id_ in machines for own in map(str, nb.tools[id_].properties) if _same(own, name, thing)
        ]
        if len(having) == 1:
            yield name, having[0][1], having[0][0]


def _same(own: str, name: str, thing: Thing) -> bool:
    if own == name:
        return True
    first, _, last = own.rpartition(" ")
    return isinstance(thing, Material) and last == name and first in str(thing.title).lower()


def _misfit(analysis: Analysis, thing_id: str, name: str, machine: str, machine_name: str) -> Found | None:
    nb = analysis.notebook
    thing, tool = nb.things[thing_id], nb.tools[machine]
    written = [cell.written for one in thing.properties[Text(name)] for _, cell in one.cells()]
    leaf = written[0] if len(written) == 1 else None
    if leaf is None:
        return None
    own, allowed = borne(analysis, thing_id, name), borne(analysis, machine, machine_name)
    takes = ""
    if own and allowed:
        missed = past(own[0], allowed)
        takes = told(missed) if missed is not None else ""
    elif isinstance(leaf.value.what, Word):
        takes = _other_word(leaf, tool.properties[Text(machine_name)])
    if not takes:
        return None
    return Found(
        leaf.at, f"“{thing.title}” has `{leaf}` for {name}, and “{tool.title}”, with which it is used, takes {takes}.",
        f"Put right the {name} of the one or the other, or name in the work what fits.", thing_id,
    )


def _other_word(leaf: Written, limits: tuple[Limit, ...]) -> str:
    words = [cell.written for one in limits for _, cell in one.cells()]
    if len(words) == 1 and words[0] is not None and isinstance(words[0].value.what, Word):
        return "" if str(words[0]).lower() == str(leaf).lower() else f"`{words[0]}`"
    return ""


FIT_MISFIT = Rule(
    "fit-misfit", Level.ERROR, "A wheel, belt or sheet that its machine does not take.",
    "A wheel too large for its guard bursts; a sheet too thick springs the shears.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot
✓ tools: [grinder, belt]
✗ tools: [grinder, belt, shears]
✗ materials: brass
steps: Grind it.
=== tools/machines/grinder.yml
machine: grinder
title: Belt grinder
properties: {belt length: 2000 mm}
✗ === tools/machines/shears.yml
✗ machine: shears
✗ title: Circle shears
✗ properties: {sheet thickness: max 1.2 mm}
✗ === tools/materials/brass.yml
✗ material: brass
✗ title: Brass sheet
✗ properties: {thickness: ▸1.5 ±0.04 mm}
=== tools/tooling/belt.yml
tooling: belt
title: Belt, P80
✓ properties: {belt length: 2000 mm}
✗ properties: {belt length: ▸1200 mm}
""", fit_misfit,
)


def gauge_out_of_range(analysis: Analysis) -> Iterator[Found]:
    for one in outside(analysis):
        if one.surely:
            title = analysis.notebook.tools[str(one.gauge)].title
            yield Found(
                one.gauge.at, f"“{title}” reads {told(one.reads)}; `{one.written}` lies outside.",
                "Name a gauge that reads it, or put right the limit or the `range` of the gauge.", one.owner,
            )


GAUGE_OUT_OF_RANGE = Rule(
    "gauge-out-of-range", Level.ERROR, "A limit that its gauge cannot read.",
    "What is written down for it then was never measured.",
    """\
=== procedures/arm/cast-arm.yml
procedure: cast-arm
title: Cast the arm
steps: Pour.
limits: {heat of the bath: {is: max 490 °C, with: ▸pyrometer}}
=== tools/gauges/pyrometer.yml
gauge: pyrometer
title: Pyrometer
✓ properties: {range: 0..900 °C}
✗ properties: {range: 0..250 °C}
""", gauge_out_of_range,
)


def gauge_range_short(analysis: Analysis) -> Iterator[Found]:
    for one in outside(analysis):
        if not one.surely:
            title = analysis.notebook.tools[str(one.gauge)].title
            yield Found(
                one.gauge.at, f"“{title}” reads {told(one.reads)}, and `{one.written}` reaches past that.",
                "Name a gauge that reads all of it; where it is read as a difference, name the setting piece beside "
                f"it, as `with: [{one.gauge}, setting-piece]`.", one.owner,
            )


GAUGE_RANGE_SHORT = Rule(
    "gauge-range-short", Level.WARNING, "A limit of which a side lies outside what its gauge reads.",
    "A dial reads a large size as a difference from a setting piece. That piece is a gauge too.",
    """\
=== procedures/post/turn-post.yml
procedure: turn-post
title: Turn the post
steps: Turn it.
✓ limits: {length: {is: 42 ±0.1 mm, with: caliper}}
✓ === tools/gauges/caliper.yml
✓ gauge: caliper
✓ title: Caliper
✓ properties: {range: 0..150 mm}
✗ limits: {length: {is: 42 ±0.1 mm, with: ▸dial}}
✗ === tools/gauges/dial.yml
✗ gauge: dial
✗ title: Dial gauge
✗ properties: {range: 0..10 mm}
""", gauge_range_short,
)


_COARSER = 1.01
"""Grades of two standards overlap; less than a hundredth is the same grade."""


def grit_backward(analysis: Analysis) -> Iterator[Found]:
    for id_, row in sandings(analysis).items():
        own = analysis.notebook.procedures[id_]
        for before, after in pairwise(row):
            if exclude(before.condition, after.condition) or before.condition != after.condition:
                continue
            steps = list(own.steps)
            first, last = (
                next((i for i, one in enumerate(steps) if one is used.step), None) for used in (before, after)
            )
            between = steps[first + 1 : last + 1] if first is not None and last is not None else []
            # What is filled, painted or turned over begins anew with a coarse grit.
            anew = any(one.materials or one.makes or one.use for one in between)
            if not anew and _is_coarser(before, after):
                yield Found(
                    after.at, f"{after.grade} after {before.grade} is coarser and cuts deep scratches again.",
                    f"Put {after.grade} before {before.grade}, or write the grit that was meant.", id_,
                )


def _is_coarser(before: Sanding, after: Sanding) -> bool:
    try:
        return grain_size(after.grade).middle > grain_size(before.grade).middle * _COARSER
    except Impossible:
        return False


GRIT_BACKWARD = Rule(
    "grit-backward", Level.WARNING, "A coarser grit after a finer one.",
    "The scratches of the coarser stay, and the work with the finer was for nothing.",
    """\
=== procedures/hood/sand-hood.yml
procedure: sand-hood
title: Sand the hood
steps:
✓   - {do: Go across., settings: {grit: P180}}
✓   - {do: And across again., settings: {grit: P240}}
✗   - {do: Go across., settings: {grit: P240}}
✗   - {do: And across again., settings: {grit: ▸P180}}
""", grit_backward,
)
