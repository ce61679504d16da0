from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.limits import is_guide, limits_of, told_in
from site_builder.checks.rules.values.sides import sides_of
from site_builder.checks.rules.values.wording import thing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.parsed_values import Written
from site_builder.quantity import as_said


def check(analysis: Analysis) -> Iterator[Found]:
    held = reckoning(analysis)
    for limit, place in limits_of(analysis):
        if not limit.check or is_guide(limit) or all(one.fails for one in limit.check):
            continue
        missing: dict[str, Written] = {}
        for cell, written in told_in(limit):
            sides = sides_of(written, held)
            if sides.low and not (limit.below or cell.below or {"below"} & (limit.asked | cell.asked)):
                missing.setdefault("below", written)
            if sides.high and not (limit.above or cell.above or {"above"} & (limit.asked | cell.asked)):
                missing.setdefault("above", written)
        if missing:
            first = next(iter(missing.values()))
            sides_missing = " or ".join(missing)
            keys = " and ".join(f"`{side}:`" for side in missing)
            name = thing(place)
            yield Found(
                first.at, f"{name[0].upper()}{name[1:]} is {sides_missing} {as_said(first.value)}: what does it mean, "
                "and what is to be done?", f"Add {keys} with what to `do` and where to go `then`.", place.owner_id,
            )


RULE = Rule(
    code="side-unsaid",
    level=Level.QUESTION,
    summary="A checked limit, and nothing on what to do when it is not kept.",
    reason=(
        "Too thin and too thick are two troubles with two ways out. Whoever finds the one must not have "
        "to guess."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits:
  height of the foot:
    is: 32 ±0.2 mm
    check: every 10 pieces
    below: {do: Mark it red., then: scrap}
    above: {do: Take one more pass., then: again}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits:
  height of the foot:
    is: ▸32 ±0.2 mm
    check: every 10 pieces
    above: {do: Take one more pass., then: again}
""",
    check=check,
)
