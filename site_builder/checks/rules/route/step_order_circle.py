from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.route.step_orders import step_circles
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for circle in step_circles(analysis):
        waits = [wait.order for wait in circle if wait.order is not None]
        if len(waits) < len(circle):
            continue
        names = [f"`{order.link.text}`" for order in waits]
        told = f"waits for {names[0]}, which is itself" if len(names) == 1 else f"waits for {', '.join(names)} in turn"
        yield Found(
            waits[-1].link.at, f"This step {told}. None of it could ever begin.",
            "Say which of the steps is done first, and take the other out of its `after`.", waits[-1].later,
        )


RULE = Rule(
    code="step-order-circle",
    level=Level.ERROR,
    summary="Steps that wait for each other in a circle.",
    reason="If the one must be past before the other and the other before the one, nobody can begin.",
    passes="""\
=== procedures/arm/rivet-arm.yml
procedure: rivet-arm
title: Rivet the arm
steps:
  - {id: drill, do: Drill both eyes.}
  - {id: ream, do: Ream both eyes., after: drill}
""",
    fails="""\
=== procedures/arm/rivet-arm.yml
procedure: rivet-arm
title: Rivet the arm
steps:
  - {id: drill, do: Drill both eyes., after: ream}
  - {id: ream, do: Ream both eyes., after: ▸drill}
""",
    check=check,
)
