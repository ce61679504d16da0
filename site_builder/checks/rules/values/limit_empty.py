from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.crossed import crossed, is_time_between
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for leaf, place, least, most in crossed(analysis):
        if not is_time_between(place):
            yield Found(
                leaf.at, f"`{leaf}` leaves nothing: {least} at the least, {most} at the most.",
                "Put right one of the two sides, or the value that the name leads to.", place.owner_id,
            )


RULE = Rule(
    code="limit-empty",
    level=Level.ERROR,
    summary="A limit whose least is over its most, once the names in it are followed.",
    reason="Each side looks right by itself, but no piece can keep both.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits:
  wall: 4 ±0.4 mm
  depth of a pit: min 0.5 mm; max 1/2 of wall
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits:
  wall: 4 ±0.4 mm
  depth of a pit: ▸min 3 mm; max 1/2 of wall
""",
    check=check,
)
