from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.route.orders import WHOLE, Order, orders
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    procedures = analysis.notebook.procedures
    told: dict[tuple[str, str], list[Order]] = defaultdict(list)
    for order in orders(analysis):
        told[order.later, order.earlier].append(order)
    selves = [(later,) for later, earlier in told if later == earlier]
    for circle in (*analysis.route.cycles, *selves):
        # each of them waits for the next, and the last for the first
        waits = [min(told[pair], key=_strictness) for pair in zip(circle, (*circle[1:], circle[0]), strict=True)]
        if not _closed(waits):
            continue
        titles = [f"“{procedures[id_].title}”" for id_ in (*circle, circle[0])]
        waiting = (
            f"{titles[0]} waits for itself" if len(circle) == 1
            else f"The order goes round in a circle: {', which waits for '.join(titles)}"
        )
        yield Found(
            waits[-1].link.at, f"{waiting}. None of it could ever begin.",
            "Say which of them is done first, and take the other out of its `after`.", circle[-1],
        )


def _strictness(order: Order) -> tuple[float, float]:
    """Of several waits for the same procedure the one first that waits at the earliest for the most of it."""
    return order.begins, -order.ends


def _closed(waits: Sequence[Order]) -> bool:
    """Whether every procedure is waited for at or behind the step with which it waits itself.

    Otherwise they go hand in hand: a late step of the one waits for the other, which began after an early
    step of the one. The steps of one procedure among themselves are looked at elsewhere.
    """
    if len(waits) == 1:
        return waits[0].begins == WHOLE
    return all(wait.begins <= waits[number - 1].ends for number, wait in enumerate(waits))


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
