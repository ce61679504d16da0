from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.limits import is_guide, limits_of, told_in
from site_builder.checks.rules.values.wording import is_or_are, name_of, thing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.procedure import Work


def check(analysis: Analysis) -> Iterator[Found]:
    for limit, place in limits_of(analysis):
        if (
            place.key != "limits" or limit.check or "check" in limit.asked or limit.sum or is_guide(limit)
            or place.parent is None or not isinstance(place.parent.entry, Work)
        ):
            continue
        told = told_in(limit)
        if told and not any(cell.check for cell, _ in told):
            yield Found(
                told[0][1].at, f"How often {is_or_are(name_of(place))} {thing(place)} looked at?",
                "Add `check:`, as `each piece`, `every 10 pieces` or `first and last`.", place.owner_id,
            )


RULE = Rule(
    code="limit-unchecked",
    level=Level.QUESTION,
    summary="A limit that nobody is told to look at.",
    reason=(
        "A limit that is never looked at is a wish. How often it must be looked at is what the master "
        "knows by experience."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits:
  flatness of the sole: {is: max 0.1 mm, check: every 10 pieces}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits:
  flatness of the sole: ▸max 0.1 mm
""",
    check=check,
)
