from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from math import inf

from site_builder.checks.rule import Rule
from site_builder.checks.rules.route.orders import Order, orders
from site_builder.checks.survey import Survey
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.quantity import Event, Moment


def check(survey: Survey) -> Iterator[Found]:
    procedures = survey.notebook.procedures
    told = _between(survey) if survey.route.cycles or _own(survey) else {}
    for circle in (*survey.route.cycles, *_own(survey)):
        # each of them waits for the next, and the last for the first
        waits = [told[one, circle[(number + 1) % len(circle)]] for number, one in enumerate(circle)]
        if not _closed([_strictest(one) for one in waits]):
            continue
        titles = [f"“{procedures[id_].title}”" for id_ in circle]
        waiting = f"{titles[0]} waits for itself" if len(circle) == 1 else (
            f"The order goes round in a circle: {', which waits for '.join((*titles, titles[0]))}"
        )
        yield Found(
            _strictest(waits[-1]).link.at, f"{waiting}. None of it could ever begin.",
            "Say which of them is done first, and take the other out of its `after`.", circle[-1],
        )


def _own(survey: Survey) -> list[tuple[str]]:
    """Procedures that wait for themselves as a whole."""
    return [(order.later,) for order in orders(survey)
            if order.earlier == order.later and order.step is None and order.link.place.parent is not None
            and isinstance(order.link.place.parent.entry, Procedure)]


def _between(survey: Survey) -> Mapping[tuple[str, str], Sequence[Order]]:
    found: dict[tuple[str, str], list[Order]] = defaultdict(list)
    for order in orders(survey):
        found[order.later, order.earlier].append(order)
    return found


def _strictest(waits: Sequence[Order]) -> Order:
    """Of several waits for the same procedure the one for the most of it, at the earliest."""
    return min(waits, key=lambda order: (_begins(order), -_ends(order)))


def _closed(waits: Sequence[Order]) -> bool:
    """Whether every procedure must be further when the one before begins than it can be when it waits itself.

    Two procedures may go hand in hand: a late step of the one waits for the other, which began after an
    early step of the one.
    """
    return all(_begins(wait) <= _ends(waits[number - 1]) for number, wait in enumerate(waits))


def _begins(order: Order) -> float:
    """The number of the step that waits; -1 where all of it waits."""
    place = order.link.place.parent
    step = None if place is None else place.step
    return -1 if step is None else _number(order.link.place.procedure, step)


def _ends(order: Order) -> float:
    """The number of the step that must be past; -1 for the start, infinity for the end of the whole."""
    if order.step is None:
        return -1 if _is_start(order.moment) else inf
    own = order.link.target.entry if order.link.target is not None else None
    return _number(own if isinstance(own, Procedure) else None, order.step)


def _is_start(moment: Moment) -> bool:
    return isinstance(moment, Event) and moment.edge == "start"


def _number(own: Procedure | None, wanted: Step) -> float:
    steps = own.steps if own is not None else ()
    return next((n for n, step in enumerate(steps) if step is wanted or wanted in step.also), inf)


RULE = Rule(
    code="order-circle",
    level=Level.ERROR,
    summary="Procedures that wait for each other in a circle.",
    reason="If the one must be done before the other and the other before the one, the piece never leaves "
    "the rack.",
    passes="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the foot
steps: Press the filler into the pits.
=== procedures/foot/prime-foot.yml
procedure: prime-foot
title: Prime the foot
after: fill-foot
steps: Spray the primer.
""",
    fails="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the foot
after: prime-foot
steps: Press the filler into the pits.
=== procedures/foot/prime-foot.yml
procedure: prime-foot
title: Prime the foot
after: ▸fill-foot
steps: Spray the primer.
""",
    check=check,
)
