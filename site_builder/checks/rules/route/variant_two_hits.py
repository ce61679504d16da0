from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.conditions import exclude
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Limit, Window


def check(analysis: Analysis) -> Iterator[Found]:
    for kind in (Limit, Window):
        for limit, place in analysis.index.of(kind):
            if place.name is None or place.parent is None or place.rows:
                continue
            beside = getattr(place.parent.entry, place.key)[place.name]
            if len(beside) == 1 or beside[0] is limit:
                continue
            for other in beside:
                if other is limit:
                    break
                if _both_hold(limit, other):
                    yield Found(
                        limit.at, f"“{place.name}” may have two values at once: this one and that of line "
                        f"{other.at.line} can hold for the same piece.",
                        "Give each a `for:` that excludes the other, as `for: {pattern: harbour}` and "
                        "`for: {pattern: deck}`.", place.owner_id,
                    )
                    break


def _both_hold(one: Limit, other: Limit) -> bool:
    """Whether there is a case for which both are meant.

    One without `for` beside one with it holds where the other does not. What only shows the way does not
    contradict what accepts, and two tools may be set to two figures.
    """
    if bool(one.for_) != bool(other.for_) or one.guide != other.guide or one.tool != other.tool:
        return False
    return not exclude(one.for_, other.for_)


RULE = Rule(
    code="variant-two-hits",
    level=Level.ERROR,
    summary="Two values under one name that hold for the same piece.",
    reason="One sets the one and one the other, and both have read the page.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
variants: {pattern: {values: [harbour, deck], decided: the order}}
limits:
  height of the foot:
    - {is: 42 ±0.2 mm, for: {pattern: harbour}}
    - {is: 40 ±0.2 mm, for: {pattern: deck}}
steps: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
variants: {pattern: {values: [harbour, deck], decided: the order}}
limits:
  height of the foot:
    - {is: 42 ±0.2 mm, for: {pattern: [harbour, deck]}}
    - ▸{is: 40 ±0.2 mm, for: {pattern: deck}}
steps: Sweep it along the belt.
""",
    check=check,
)
