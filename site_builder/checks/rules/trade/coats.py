"""Rules on plated and painted coats."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import both
from site_builder.figures.coating import wet_off
from site_builder.figures.plated import measured_thin
from site_builder.figures.plating_orders import under_class
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval
from site_builder.notebook.finding import Found, Level


def plate_under_class(analysis: Analysis) -> Iterator[Found]:
    for one in under_class(analysis):
        given = one.ordered.given
        least = both(Interval(one.wanted.least, one.wanted.least), "µm", "mil", given.is_inch)
        yield Found(
            given.at, f"`{given.input.written}` of {one.ordered.metal} lets less through than {one.named}, which is "
            f"named beside it: {least} at least.",
            f"Order at least so much, or name another class. From: {one.wanted.source}.",
            str(one.ordered.procedure.procedure),
        )


PLATE_UNDER_CLASS = Rule(
    "plate-under-class", Level.WARNING,
    "A plated thickness that is ordered thinner than the class named with it asks for.",
    "A class is a promise to whoever buys it, in some countries one of the law. Both cannot be ordered.",
    """\
=== procedures/arm/plate-arm.yml
procedure: plate-arm
title: Have the arm plated
steps:
  - do: Write the order sheet.
    limits:
✓       nickel: min 15 µm
✗       nickel: ▸min 10 µm
      class of the coating: class 2 of JIS H 8617 on zinc
""", plate_under_class,
)


def plate_measured_thin(analysis: Analysis) -> Iterator[Found]:
    for one in measured_thin(analysis):
        least = both(Interval(one.want.least, one.want.least), "µm", "mil", one.plated.is_inch)
        asks = ("what was ordered" if one.want.who == "ordered" else f"what {one.want.who} asks for")
        source = f" From: {one.want.source}." if one.want.source else ""
        yield Found(
            one.at, f"{one.written} of {one.plated.metal} is thinner than {asks}: {least} at least.",
            "Hold the lot back and have it measured again, or plated again; then enter the new readings." + source,
            one.plated.named.owner_id,
        )


PLATE_MEASURED_THIN = Rule(
    "plate-measured-thin", Level.WARNING,
    "Plating that was measured thinner than it was ordered, or than the class named with it asks for.",
    "What is thin goes through first, and whoever bought a class was promised its least thickness at every point "
    "that matters. Readings entered later, of the same lot made good or of the next one, end the warning.",
    """\
=== procedures/arm/plate-arm.yml
procedure: plate-arm
title: Have the arm plated
steps:
  - id: order
    do: Write the order sheet.
    limits:
      nickel: min 15 µm
      class of the coating: class 2 of JIS H 8617 on zinc
✗ === procedures/arm/check-arm.yml
✗ procedure: check-arm
✗ title: Check the plating
✗ steps:
✗   - id: look
✗     do: Read the plater's report.
✗     limits: {nickel: plate-arm/order/nickel}
=== skills/records/measurements.yml
✓ ---
measurement: 1
✓ measured: plate-arm/order/nickel
✓ readings: [13 µm, 18 µm]
✓ ---
✓ measurement: 2
✓ measured: plate-arm/order/nickel
✓ readings: [15 µm, 18 µm]
✓ note: The same lot, stripped and plated again.
✗ measured: check-arm/look/nickel
✗ readings: [18 µm, ▸14 µm]
""", plate_measured_thin,
)


def wet_film_off(analysis: Analysis) -> Iterator[Found]:
    for one in wet_off(analysis):
        coat, is_inch = one.coat, one.wet.is_inch
        title = analysis.notebook.materials[coat.material].title
        try:
            right = both(coat.wet, "µm", "mil", is_inch, 2)
        except Impossible:
            continue
        yield Found(
            one.wet.at, f"`{one.wet.input.written}` wet of “{title}” leaves "
            f"{both(one.leaves, 'µm', 'mil', is_inch, 2)} dry; `{coat.dry.input.written}` is asked for.",
            f"Lay on {right} wet, or put right the dry film or the volume solids, {coat.solids.input.written}.",
            str(coat.procedure.procedure),
        )


WET_FILM_OFF = Rule(
    "wet-film-off", Level.WARNING, "A wet film that cannot leave the dry one that is asked for.",
    "Of a wet coat only the solids stay. Where wet and dry do not fit together, whoever reads the comb sprays a "
    "coat that the gauge rejects a day later.",
    """\
=== procedures/foot/prime-foot.yml
procedure: prime-foot
title: Prime the foot
materials: primer
steps:
  - do: Spray it.
✓     settings: {wet film: 40..60 µm}
✗     settings: {wet film: ▸90..120 µm}
    limits: {dry film: 15..25 µm}
=== tools/materials/primer.yml
material: primer
title: Primer
properties: {volume solids: 40 %}
""", wet_film_off,
)
