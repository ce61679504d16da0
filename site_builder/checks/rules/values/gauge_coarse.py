from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.bearing import borne
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.limits import limits_of, told_in
from site_builder.checks.rules.values.sums import shown
from site_builder.notebook.finding import Found, Level
from site_builder.quantity import Bounds, difference, same_dimensions

_READS = ("resolution", "reads to", "reading")
_SHARE = 10
"""Rule of thumb, from memory."""


def check(analysis: Analysis) -> Iterator[Found]:
    gauges = _gauges(analysis)
    if not gauges:
        return
    held = reckoning(analysis)
    for limit, place in limits_of(analysis):
        known = [(gauge, gauges[gauge]) for gauge in limit.with_ if gauge in gauges]
        if limit.note or not known or len(known) < len(limit.with_):
            continue
        for _, written in told_in(limit):
            found = held.bounds(written)
            width = None if found is None else _width(found)
            fitting = [(gauge, one) for gauge, one in known if found is not None and _comparable(one, found)]
            if found is None or not width or len(fitting) < len(known):
                continue
            gauge, finest = min(fitting, key=lambda one: one[1].aim_low or 0)
            if finest.aim_low is not None and finest.aim_low * _SHARE > width:
                yield Found(
                    gauge.at,
                    f"“{analysis.notebook.tools[gauge].title}” reads to {shown(finest, finest.aim_low)}, coarser than "
                    f"a tenth of `{written}`.",
                    "Measure it with a finer gauge, or say in `note` why this one will do.",
                    place.owner_id,
                )
                break


def _gauges(analysis: Analysis) -> dict[str, Bounds]:
    """How finely each tool reads, where it says so with one figure."""
    found = {}
    for id_ in analysis.notebook.tools:
        for name in _READS:
            told = borne(analysis, id_, name)
            if len(told) == 1 and told[0].aim_low is not None:
                found[id_] = told[0]
                break
    return found


def _comparable(reads: Bounds, found: Bounds) -> bool:
    return same_dimensions(difference(reads.unit), difference(found.unit))


def _width(found: Bounds) -> Fraction | None:
    """Between the limits; of a limit on one side the limit itself, except on a scale that begins anywhere."""
    if found.low is not None and found.high is not None:
        return found.high - found.low
    side = found.low if found.low is not None else found.high
    return None if side is None or found.kind == "temperature" else abs(side)


RULE = Rule(
    code="gauge-coarse",
    level=Level.WARNING,
    summary="A gauge that reads coarser than a tenth of what it must tell apart.",
    reason=(
        "Where the gauge reads as coarsely as the limit is narrow, luck decides which pieces pass. A "
        "tenth is a rule of thumb of the trade, from memory."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits: {flatness of the sole: {is: max 0.1 mm, with: feeler-gauges}}
=== tools/gauges/feeler-gauges.yml
gauge: feeler-gauges
title: Feeler gauges
properties: {resolution: 0.01 mm}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits: {flatness of the sole: {is: max 0.1 mm, with: ▸feeler-gauges}}
=== tools/gauges/feeler-gauges.yml
gauge: feeler-gauges
title: Feeler gauges
properties: {resolution: 0.05 mm}
""",
    check=check,
)
