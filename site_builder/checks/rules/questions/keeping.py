"""Questions about machines, gauges and life."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.things import asks_of
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.things import Gauge, Machine, Material, Thing, Tooling

MAKER_UNSAID = Rule(
    "maker-unsaid", Level.QUESTION, "A machine or a gauge without its maker.",
    "A spare, an instruction book and the figures on the plate are found by the name of the maker and the year.",
    """\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: ▸Belt grinder
✓ maker: Haldin and Sons, type 75, 1979
""",
    asks_of(
        (Machine, Gauge), "maker",
        question="Who built {}, which model is it, and from what year?",
        fix="Add `maker:`, as `Haldin and Sons, type 75, 1979`.",
    ),
)


UPKEEP_UNSAID = Rule(
    "upkeep-unsaid", Level.QUESTION, "A machine that needs nothing.",
    "What the machine gets every week from the one who has had it for thirty years, it gets from nobody after him.",
    """\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: ▸Belt grinder
✓ upkeep: {do: Grease the bearings., when: every 6 mo}
""",
    asks_of(
        (Machine,), "upkeep",
        question="What does {} need, and how often?",
        fix="Add `upkeep:` with a line for each, and `when`.",
    ),
)


CALIBRATION_UNSAID = Rule(
    "calibration-unsaid", Level.QUESTION, "A gauge that nobody has set against anything.",
    "A gauge that reads wrong passes bad work for years, and everybody trusts it.",
    """\
=== tools/gauges/caliper.yml
gauge: caliper
title: ▸Caliper
✓ calibration: {when: every 12 mo, date: 2026-02-10}
""",
    asks_of(
        (Gauge,), "calibration",
        question="How do you know that {} reads true, and how often is that looked at?",
        fix="Add `calibration:` with `when`, and the `date` of the last.",
    ),
)


def lead_unsaid(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    wholes = [nb.parts[str(order.product)] for order in nb.orders.values() if order.product in nb.parts]
    for id_ in dict.fromkeys(str(one) for whole in wholes for one in whole.of):
        part = nb.parts.get(id_)
        if part is None or part.supplier is None or part.lead_time is not None:
            continue
        if {"lead time", "lead_time"} & set(map(str, part.asked)):
            continue
        yield Found(part.title.at, f"How long does it take from ordering until it is here: “{part.title}”?",
                    "Add `lead time:`, as `3 wk`.", id_)


LEAD_UNSAID = Rule(
    "lead-unsaid", Level.QUESTION,
    "A part that is bought for an order, and nobody has said how long it takes to come.",
    "The plan of the season tells by when it must be ordered; what comes too late holds up everything else.",
    """\
=== procedures/shop.yml
shop: corvane
title: The shop
products: {lantern: {title: Lantern, of: {glass: 1}}}
✓ parts: {glass: {title: Glass, supplier: Pellmoor Glass, lead time: 6 wk}}
✗ parts: {glass: {title: ▸Glass, supplier: Pellmoor Glass}}
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
product: lantern
""", lead_unsaid,
)


def taken_in_unsaid(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    if not any(order.due is not None for order in nb.orders.values()):
        return
    for id_, own in nb.procedures.items():
        if own.where is None or own.taken_in or {"taken in", "taken_in"} & set(map(str, own.asked)):
            continue
        yield Found(own.title.at, f"On which days is the work taken in: “{own.title}”?",
                    "Add `taken in:` with the days of the week, as `[Tuesday, Friday]`.", id_)


TAKEN_IN_UNSAID = Rule(
    "taken-in-unsaid", Level.QUESTION,
    "Work done outside for an order, and nobody has said on which days it is taken in.",
    "Who comes a day late waits a week where it is taken in on one day only; the plan of the season goes by it.",
    """\
=== procedures/arm/plate.yml
procedure: plate
title: ▸Have the arm plated
where: the plater's
✓ taken in: Monday
steps: Hand it over.
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
due: 2027-05-14
""", taken_in_unsaid,
)


_SETTING = ("pot life", "open time", "recoat")
"""Properties of what sets, and goes on setting in the tin."""
_KEEPS = ("shelf life", "shelf life after opening")


def _wears(thing: Thing) -> bool:
    """Tooling, and what sets, unless it says how long it keeps."""
    if isinstance(thing, Material):
        names = thing.properties
        return any(name in names for name in _SETTING) and not any(name in names for name in _KEEPS)
    return True


LIFE_UNSAID = Rule(
    "life-unsaid", Level.QUESTION, "Something that wears out or goes stale, and no word on when.",
    "The last good piece looks like the first bad one to whoever does not know what a worn belt does.",
    """\
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: ▸Belt, P80
✓ life: {sign: It burns and does not cut., do: Change it.}
""",
    asks_of(
        (Tooling, Material), "life",
        question="When is {} worn or stale, how does one see it, and what then?",
        fix="Add `life:` with a `sign`, a `count` or a `clock`, and `do`.",
        worth=_wears,
    ),
)
