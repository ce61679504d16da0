from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import percent_of
from site_builder.figures.chains import chains, length
from site_builder.notebook.finding import Found, Level

MANY = 0.05
"""From this share of misfits on it is worth a warning: common practice, one of twenty."""


def check(analysis: Analysis) -> Iterator[Found]:
    for one in chains(analysis):
        if not one.measured or one.place.procedure is None:
            continue
        trial = one.trial()
        if trial is not None and trial.misfits.all - 2 * trial.doubt > MANY:
            at = one.limit.written.at if one.limit.written is not None else one.limit.at
            yield Found(
                at, f"“{one.name}”: as the parts were measured, about {percent_of(trial.misfits.all)} of them will not "
                f"go together; within their limits it comes to {length(one, one.worst)} at the worst.",
                "Look at the size that was measured: it stands off its middle, or spreads wider than its limits. Put "
                "that right, or allow what the assembly really bears.", one.place.owner_id,
            )


RULE = Rule(
    code="chain-misfit",
    level=Level.WARNING,
    summary="Sizes that, as they were measured, leave many assemblies that will not go together.",
    reason=(
        "Limits say how parts may be, the book of measurements how they are. Where one size stands off its middle, the "
        "gap at the end of the chain stands off too."
    ),
    passes="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {arm: {title: Arm, sizes: {span: 100 ±0.2 mm}}, hood: {title: Hood, sizes: {rim: 98 ±0.2 mm}}}
=== procedures/arm/fit-arm.yml
procedure: fit-arm
title: Fit the arm
limits:
  play:
    is: 1.2..2.8 mm
    sum: [arm/span, minus hood/rim]
steps: Fit it.
=== skills/records/measurements.yml
measurement: 1
measured: hood/rim
readings: [97.9 mm, 98 mm, 98.1 mm]
date: 2026-01-10
""",
    fails="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {arm: {title: Arm, sizes: {span: 100 ±0.2 mm}}, hood: {title: Hood, sizes: {rim: 98 ±0.2 mm}}}
=== procedures/arm/fit-arm.yml
procedure: fit-arm
title: Fit the arm
limits:
  play:
    is: ▸1.2..2.8 mm
    sum: [arm/span, minus hood/rim]
steps: Fit it.
=== skills/records/measurements.yml
measurement: 1
measured: hood/rim
readings: [98.7 mm, 98.8 mm, 98.9 mm]
date: 2026-01-10
""",
    check=check,
)
