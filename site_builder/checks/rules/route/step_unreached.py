from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.route.flow import flows
from site_builder.checks.rules.route.step_orders import step_circles
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    yield from _waiting_for_below(analysis)
    yield from _passed_over(analysis)


def _waiting_for_below(analysis: Analysis) -> Iterator[Found]:
    """Steps that wait for one which stands below them and so comes after them."""
    for circle in step_circles(analysis):
        for wait in circle:
            order = wait.order
            if order is not None and order.ends > order.begins and len(circle) > 1 and any(
                one.order is None for one in circle
            ):
                yield Found(
                    order.link.at, f"This step waits for `{order.link.text}`, which stands below it and so comes "
                    "after it. Neither is ever reached.",
                    f"Put the step below `{order.link.text}`, or say with `after` what `{order.link.text}` itself "
                    "waits for.", order.later,
                )


def _passed_over(analysis: Analysis) -> Iterator[Found]:
    """Steps behind one whose every end leads elsewhere."""
    for flow in flows(analysis):
        steps = flow.procedure.steps
        for number, links in flow.always.items():
            below = number + 1
            if below == len(steps) or below in flow.led or any(
                flow.target(number, link) in (None, below) and link.text not in ("scrap", "none") for link in links
            ):
                continue
            if not steps[below].after and steps[below].when is None:
                words = ", ".join(f"`{link.text}`" for link in links)
                yield Found(
                    steps[below].at, f"Nobody ever comes to this step: the one above it always goes on with {words}.",
                    "Give this step an `id` and lead to it with `then`, or take the `then` out of the end (`until`) "
                    "of the step above.", flow.id,
                )


RULE = Rule(
    code="step-unreached",
    level=Level.WARNING,
    summary="A step that the order of the work never comes to.",
    reason="What nobody ever comes to is either written in the wrong place or should not stand there at all.",
    passes="""\
=== procedures/arm/rivet-arm.yml
procedure: rivet-arm
title: Rivet the arm
steps:
  - {id: glue, do: Glue both faces.}
  - {id: clamp, do: Set the clamp., after: glue}
  - {id: wipe, do: Wipe off what comes out., after: glue}
""",
    fails="""\
=== procedures/arm/rivet-arm.yml
procedure: rivet-arm
title: Rivet the arm
steps:
  - {id: glue, do: Glue both faces., after: ▸wipe}
  - {id: clamp, do: Set the clamp.}
  - {id: wipe, do: Wipe off what comes out.}
""",
    check=check,
)
