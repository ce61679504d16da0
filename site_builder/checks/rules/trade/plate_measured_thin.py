from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import both
from site_builder.figures.plated import measured_thin
from site_builder.formulas.interval import Interval
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for one in measured_thin(analysis):
        least = both(Interval(one.want.least, one.want.least), "µm", "mil", one.plated.is_inch)
        asks = ("what was ordered" if one.want.who == "ordered" else f"what {one.want.who} asks for")
        source = f" From: {one.want.source}." if one.want.source else ""
        yield Found(
            one.at, f"{one.written} of {one.plated.metal} is thinner than {asks}: {least} at least.",
            "Hold the lot back and have it measured again, or plated again; then enter the new readings." + source,
            one.plated.named.owner_id,
        )


RULE = Rule(
    code="plate-measured-thin",
    level=Level.WARNING,
    summary="Plating that was measured thinner than it was ordered, or than the class named with it asks for.",
    reason="What is thin goes through first, and whoever bought a class was promised its least thickness at every "
    "point that matters. Readings entered later, of the same lot made good or of the next one, end the warning.",
    passes="""\
=== procedures/arm/plate-arm.yml
procedure: plate-arm
title: Have the arm plated
steps:
  - id: order
    do: Write the order sheet.
    limits:
      nickel: min 15 µm
      class of the coating: class 2 of JIS H 8617 on zinc
=== skills/records/measurements.yml
---
measurement: 1
measured: plate-arm/order/nickel
readings: [13 µm, 18 µm]
---
measurement: 2
measured: plate-arm/order/nickel
readings: [15 µm, 18 µm]
note: The same lot, stripped and plated again.
""",
    fails="""\
=== procedures/arm/plate-arm.yml
procedure: plate-arm
title: Have the arm plated
steps:
  - id: order
    do: Write the order sheet.
    limits:
      nickel: min 15 µm
      class of the coating: class 2 of JIS H 8617 on zinc
=== procedures/arm/check-arm.yml
procedure: check-arm
title: Check the plating
steps:
  - id: look
    do: Read the plater's report.
    limits: {nickel: plate-arm/order/nickel}
=== skills/records/measurements.yml
measurement: 1
measured: check-arm/look/nickel
readings: [18 µm, ▸14 µm]
""",
    check=check,
)
