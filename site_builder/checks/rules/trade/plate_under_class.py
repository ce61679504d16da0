from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import both
from site_builder.figures.plating_orders import under_class
from site_builder.formulas.interval import Interval
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for one in under_class(analysis):
        given = one.ordered.given
        least = both(Interval(one.wanted.least, one.wanted.least), "µm", "mil", given.is_inch)
        yield Found(
            given.at, f"`{given.input.written}` of {one.ordered.metal} lets less through than {one.named}, which is "
            f"named beside it: {least} at least.",
            f"Order at least so much, or name another class. From: {one.wanted.source}.",
            str(one.ordered.procedure.procedure),
        )


RULE = Rule(
    code="plate-under-class",
    level=Level.WARNING,
    summary="A plated thickness that is ordered thinner than the class named with it asks for.",
    reason="A class is a promise to whoever buys it, in some countries one of the law. Both cannot be ordered.",
    passes="""\
=== procedures/arm/plate-arm.yml
procedure: plate-arm
title: Have the arm plated
steps:
  - do: Write the order sheet.
    limits:
      nickel: min 15 µm
      class of the coating: class 2 of JIS H 8617 on zinc
""",
    fails="""\
=== procedures/arm/plate-arm.yml
procedure: plate-arm
title: Have the arm plated
steps:
  - do: Write the order sheet.
    limits:
      nickel: ▸min 10 µm
      class of the coating: class 2 of JIS H 8617 on zinc
""",
    check=check,
)
