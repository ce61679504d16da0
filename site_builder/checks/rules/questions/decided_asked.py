from __future__ import annotations

from collections.abc import Iterator

from site_builder.checks.rule import Rule
from site_builder.checks.survey import Survey
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.small import Variant


def check(survey: Survey) -> Iterator[Found]:
    for variant, place in survey.index.of(Variant):
        name = place.name
        if variant.decided or "decided" in variant.asked or name is None or _comes_by_itself(survey, name):
            continue
        yield Found(
            variant.at, f"Who decides the {name}, and when is it decided at the latest?",
            "Add `decided:` with a step or an event, as `start of cast-foot`.", place.owner_id,
        )


def _comes_by_itself(survey: Survey, name: str) -> bool:
    """The work shows it, or an order, a customer, a part brings it along."""
    notebook, shop = survey.notebook, survey.notebook.shop
    bringing = [*notebook.orders.values(), *notebook.parts.values(), *(shop.customers.values() if shop else ())]
    return any(name in one.chosen for one in bringing) or any(name in step.finds for _, step in notebook.steps())


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
