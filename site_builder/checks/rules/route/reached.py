"""Rules on steps and on the way through them."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.route.flow import Flow, flows
from site_builder.checks.rules.route.step_orders import step_circles
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.judging import ROUTES
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.shop import Order
from site_builder.notebook.nearest import did_you_mean, nearest
from site_builder.notebook.references import all_steps
from site_builder.notebook.vocabulary import Vocabulary
from site_builder.notebook.way import span


def step_order_circle(analysis: Analysis) -> Iterator[Found]:
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


STEP_ORDER_CIRCLE = Rule(
    "step-order-circle", Level.ERROR, "Steps that wait for each other in a circle.",
    "If the one must be past before the other and the other before the one, nobody can begin.",
    """\
=== procedures/arm/rivet-arm.yml
procedure: rivet-arm
title: Rivet the arm
steps:
✓   - {id: drill, do: Drill both eyes.}
✗   - {id: drill, do: Drill both eyes., after: ream}
  - {id: ream, do: Ream both eyes., after: ▸drill}
""", step_order_circle,
)


def step_unreached(analysis: Analysis) -> Iterator[Found]:
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


STEP_UNREACHED = Rule(
    "step-unreached", Level.WARNING, "A step that the order of the work never comes to.",
    "What nobody ever comes to is either written in the wrong place or should not stand there at all.",
    """\
=== procedures/arm/rivet-arm.yml
procedure: rivet-arm
title: Rivet the arm
steps:
✓   - {id: glue, do: Glue both faces.}
✓   - {id: clamp, do: Set the clamp., after: glue}
✓   - {id: wipe, do: Wipe off what comes out., after: glue}
✗   - {id: glue, do: Glue both faces., after: ▸wipe}
✗   - {id: clamp, do: Set the clamp.}
✗   - {id: wipe, do: Wipe off what comes out.}
""", step_unreached,
)


def route_circle(analysis: Analysis) -> Iterator[Found]:
    for flow in flows(analysis):
        for number, links in flow.always.items():
            back = [target for link in links if (target := flow.target(number, link)) is not None and target <= number]
            if len(back) == len(links) and not _has_way_out(flow, number):
                words = ", ".join(f"`{link.text}`" for link in links)
                yield Found(
                    links[-1].at, f"The end of this step always leads back to {words}, and nothing on the way round "
                    "leads out. It would never be done.",
                    "Write it as a loop that tells when it is over, as `repeat: {from: sweep, until: It does not "
                    "rock., times: about 2; max 5}`.", flow.id,
                )


def _has_way_out(flow: Flow, start: int) -> bool:
    """Whether the work can get beyond the last step or away from these steps, if need be by a remedy."""
    seen: set[int] = set()
    todo = [start]
    while todo:
        number = todo.pop()
        if number >= len(flow.procedure.steps):
            return True
        if number in seen:
            continue
        seen.add(number)
        always = flow.always.get(number)
        if always is None:
            todo.append(number + 1)
        for link in always or ():
            target = flow.target(number, link)
            if target is None:
                return True
            todo.append(target)
        for link in (*flow.sent[number], *flow.sent[None]):
            target = flow.target(number, link)
            if target is not None:
                todo.append(target)
            elif link.target is not None and link.target.kind == "procedure":
                return True
    return False


ROUTE_CIRCLE = Rule(
    "route-circle", Level.ERROR, "Steps that always lead back to one another.",
    "Going back and doing it again is good work if somebody says when it is enough. Here nobody does, and no "
    "piece would ever be done.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - {id: sweep, do: Sweep it along the belt.}
  - id: try
    do: Try it on the plate.
✓     repeat: {from: sweep, until: It does not rock., times: about 2; max 5}
✗     until: {sign: The plate shows where it rocks., then: ▸sweep}
""", route_circle,
)


_MEANT = {
    "back": "again", "repeat": "again", "redo": "again", "retry": "again", "continue": "next", "go on": "next",
    "waste": "scrap", "bin": "scrap", "discard": "scrap", "hold": "aside", "halt": "stop", "nothing": "none",
}
"""Other words for the ways on."""


def route_none(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for link in analysis.references.links:
        if link.kinds == ("route",) and link.target is None and link.text.split("/")[0] not in nb.unread:
            near = _MEANT.get(link.text.lower()) or _near(analysis, link.place.procedure, link.text)
            yield Found(
                link.at, f"Nothing is called `{link.text}` that one could go on to.",
                f"{did_you_mean(near)}Write a step of this procedure, a procedure, or one of {', '.join(ROUTES)}.",
                link.place.owner_id,
            )


def _near(analysis: Analysis, own: Procedure | None, text: str) -> str:
    """Of the steps here, the ways on and the procedures the one that was meant."""
    steps = all_steps(own) if own is not None else ()
    here = analysis.once(("ways on", id(own)), lambda: Vocabulary(
        (*(str(step.id) for step in steps if step.id is not None), *ROUTES))).nearest(text)
    there = analysis.once("words of procedures", lambda: Vocabulary(analysis.notebook.procedures)).nearest(text)
    return nearest(text, (here, there)) if here and there else here or there


ROUTE_NONE = Rule(
    "route-none", Level.ERROR, "A way on or back that leads to nothing.",
    "Whoever stands at the bench with a failed piece must be led somewhere that exists.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - id: sweep
    do: Sweep it along the belt.
  - do: Try it on the plate.
✓     troubles: [{sign: It rocks., do: Take one more pass., then: sweep}]
✗     troubles: [{sign: It rocks., do: Take one more pass., then: ▸sweeps}]
""", route_none,
)


def split_over(analysis: Analysis) -> Iterator[Found]:
    for order, place in analysis.index.of(Order):
        whole = span(order.pieces) if order.pieces is not None else None
        told = [share.pieces for share in order.split if share.pieces is not None]
        shares = [ends for one in told if (ends := span(one)) is not None]
        least = sum(ends[0] for ends in shares)
        if order.pieces is not None and whole is not None and shares and least > whole[1]:
            yield Found(
                order.pieces.at, f"The shares under `split` come to {float(least):g}, and {order.pieces} are ordered.",
                f"Write `pieces: {float(least):g}`, or put right the shares.", place.owner_id,
            )


SPLIT_OVER = Rule(
    "split-over", Level.ERROR, "An order whose shares are more than is ordered.",
    "Either too many are made of one kind, or the whole is told too small and too little is bought.",
    """\
=== procedures/shop.yml
shop: corvane
title: The shop
products: {lantern: Lantern}
variants: {pattern: [harbour, deck]}
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
product: lantern
✓ pieces: 260
✗ pieces: ▸100
split: [{chosen: {pattern: deck}, pieces: 60}, {chosen: {pattern: harbour}, pieces: 200}]
""", split_over,
)
