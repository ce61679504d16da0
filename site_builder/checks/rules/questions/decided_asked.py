from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.model.small import Variant


def check(analysis: Analysis) -> Iterator[Found]:
    open_ = [
        (variant, place) for variant, place in analysis.index.of(Variant)
        if not variant.decided and "decided" not in variant.asked and place.name is not None
    ]
    if not open_:
        return
    brought = _brought(analysis)
    for variant, place in open_:
        if place.name not in brought:
            yield Found(
                variant.at, f"Who decides the {place.name}, and when is it decided at the latest?",
                "Add `decided:` with a step or an event, as `start of cast-foot`.", place.owner_id,
            )


def _brought(analysis: Analysis) -> set[str]:
    """What the work shows, and what an order, a customer or a part brings along."""
    notebook, shop = analysis.notebook, analysis.notebook.shop
    bringing = [*notebook.orders.values(), *notebook.parts.values(), *(shop.customers.values() if shop else ())]
    chosen = {str(name) for one in bringing for name in one.chosen}
    return chosen | {
        str(name) for work in (Procedure, Step) for one, _ in analysis.index.of(work) for name in one.finds
    }


RULE = Rule(
    code="decided-asked",
    level=Level.QUESTION,
    summary="A choice of which nobody has said when it is made.",
    reason="A choice that is made too late is made twice: once by chance and once by scrap.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
variants: {batch: {values: [half, tray], decided: start of weigh}}
steps: {id: weigh, do: Weigh the paste.}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
variants: {batch: ▸{values: [half, tray]}}
steps: {id: weigh, do: Weigh the paste.}
""",
    check=check,
)
