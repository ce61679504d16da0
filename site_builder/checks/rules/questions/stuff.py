"""Questions about what things are made of, and where they come from."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.things import untold
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.things import Gauge, Machine, Material, Protection, Tooling
from site_builder.quantity import kind_of

# What nobody buys.
_FREE = frozenset(("water", "cold water", "hot water", "warm water", "tap water", "rain water", "rainwater", "air",
                   "ice", "steam"))  # fmt: skip


def supplier_unsaid(analysis: Analysis) -> Iterator[Found]:
    made = {made for own in analysis.notebook.procedures.values() for made in own.makes}
    for thing, id_ in untold(analysis, (Machine, Tooling, Material, Protection), "supplier"):
        at_home = thing.maker is not None and thing.maker.casefold().startswith(("home", "own", "made here"))
        if id_ not in made and not at_home and str(thing.title).casefold() not in _FREE:
            runs_out = isinstance(thing, Material)
            asked = "Where do you get more of it" if runs_out else "Where do you get another, or a spare"
            yield Found(
                thing.title.at, f"{asked}: “{thing.title}”?",
                "Add `supplier:` with the name and what to ask for. Where it is made here, say so under `maker:` "
                "(`home-made`).", id_,
            )


SUPPLIER_UNSAID = Rule(
    "supplier-unsaid", Level.QUESTION,
    "Something that will run out or break, and nobody has said where another comes from.",
    "The one who knows where to order is the one who always ordered.",
    """\
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: ▸Belt, P80
✓ supplier: Ostrel Abrasives, twelve on the shelf
""", supplier_unsaid,
)


def properties_unsaid(analysis: Analysis) -> Iterator[Found]:
    for machine, id_ in untold(analysis, (Machine,), "properties"):
        yield Found(
            machine.title.at,
            f"What is known of “{machine.title}”: how large, how heavy; if it has a motor, how fast, how loud?",
            "Add `properties:`, as `belt speed: max 20 m/s`, `power: 1.5 kW`, `noise: about 92 dB(A)`.", id_,
        )
    for gauge, id_ in untold(analysis, (Gauge,), "properties"):
        yield Found(
            gauge.title.at, f"How fine does “{gauge.title}” read, and from where to where?",
            "Add `properties:` with `range` and `resolution`.", id_,
        )


PROPERTIES_UNSAID = Rule(
    "properties-unsaid", Level.QUESTION, "A machine or a gauge without a figure to hold the work against.",
    "A setting can be checked against the machine, and a limit against the gauge, only where their own figures "
    "are known.",
    """\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: ▸Belt grinder
✓ properties: {belt speed: max 20 m/s}
=== tools/gauges/caliper.yml
gauge: caliper
title: ▸Caliper
✓ properties: {resolution: 0.02 mm}
""", properties_unsaid,
)


_TURNING = ("speed", "rotation speed")


def rated_unsaid(analysis: Analysis) -> Iterator[Found]:
    tooling = {
        id_: tool for id_, tool in analysis.notebook.tools.items()
        if isinstance(tool, Tooling) and "properties" not in tool.asked
        and not any(name.endswith("speed") for name in tool.properties)
    }
    if not tooling:
        return
    turning = {
        place.owner_id for leaf, place, _ in analysis.index.values
        if place.procedure is not None and place.key == "settings" and kind_of(leaf.value) in _TURNING
    }
    used = {thing for id_ in turning for thing in analysis.told[id_].things}
    for id_, tool in tooling.items():
        if id_ in used:
            yield Found(
                tool.title.at, f"How fast may “{tool.title}” go at most?",
                "Add `properties:` with `rated speed`, as `max 32 m/s` or `max 2900 rev/min`.", id_,
            )


RATED_UNSAID = Rule(
    "rated-unsaid", Level.QUESTION, "Tooling on a turning machine that does not say how fast it may go.",
    "A wheel that is driven too fast bursts. What it bears stands on it only until the print has worn off.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: belt-p80
settings: {belt speed: 15..20 m/s}
steps: Sweep it along the belt.
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: ▸Belt, P80
✓ properties: {rated speed: max 32 m/s}
""", rated_unsaid,
)


def harm_unlisted(analysis: Analysis) -> Iterator[Found]:
    for material, id_ in untold(analysis, (Material,), "hazards"):
        groups = analysis.notebook.groups.get(id_, ())
        if material.sheet is not None and not any(analysis.notebook.things[one].hazards for one in groups):
            yield Found(
                material.title.at, f"What does the sheet say that “{material.title}” can do to you?",
                "Add `hazards:` with what the sheet names; `hazards: []` if it names nothing.", id_,
            )


HARM_UNLISTED = Rule(
    "harm-unlisted", Level.QUESTION, "A material with a safety data sheet, and no hazard.",
    "Who has a sheet for it has it because something can hurt. On the page it goes along to every step that uses it.",
    """\
=== tools/materials/compound.yml
material: compound
title: ▸White compound
sheet: {title: Safety data sheet, date: 2024-03-19}
✓ hazards: {hazard: fine dust, word: caution, avoid: Extraction on.}
""", harm_unlisted,
)


def mix_unsaid(analysis: Analysis) -> Iterator[Found]:
    for material, place in analysis.index.of(Material):
        for share in material.composition.values():
            if kind_of(share.value) == "part":
                yield Found(
                    share.at, f"Is “{material.title}” mixed by weight or by volume?",
                    "Write `parts by weight` or `parts by volume` with each.", place.owner_id,
                )
                break


MIX_UNSAID = Rule(
    "mix-unsaid", Level.QUESTION, "A mix in parts, and no word on whether they are weighed or poured.",
    "A hundred to two by weight and a hundred to two by volume are two different mixes, and one of them never sets.",
    """\
=== tools/materials/filler.yml
material: filler
title: Two-part filler
✓ composition: {paste: 100 parts by weight, hardener: 2 parts by weight}
✗ composition: {paste: ▸100 parts, hardener: 2 parts}
""", mix_unsaid,
)
