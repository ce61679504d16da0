from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.limits import is_guide, is_judged, limits_of, told_in
from site_builder.checks.rules.values.sides import is_rough
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for limit, place in limits_of(analysis):
        if not limit.check or is_guide(limit) or is_judged(limit):
            continue
        for _, written in told_in(limit):
            if is_rough(written):
                yield Found(
                    written.at, f"`{written}` is checked, but nobody can say at which figure it fails.",
                    "Add `min` or `max`, or `guide: yes` if it only shows where one is heading.", place.owner_id,
                )


RULE = Rule(
    code="value-rough",
    level=Level.WARNING,
    summary="A checked limit that says only about how much.",
    reason=(
        "A check must be able to fail. With `about 3 g` two people part good from bad at two different "
        "figures."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits:
  loss of mass: {is: about 3 g; max 5 g, check: every 10 pieces}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits:
  loss of mass: {is: ▸about 3 g, check: every 10 pieces}
""",
    check=check,
)
