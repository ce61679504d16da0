from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.harm.injuries import injuries_in
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.harm import Hazard


def check(analysis: Analysis) -> Iterator[Found]:
    shop = analysis.notebook.shop
    if shop is None or "accident" in shop.asked:
        return
    if not shop.accident:
        yield Found(
            shop.at, "What is done first when somebody is hurt, and whom does one call?",
            "Add `accident:` with a line for each kind of injury, and the number to call.", str(shop.shop),
        )
        return
    told = set(injuries_in(shop.accident))
    for hazard, place in analysis.index.of(Hazard):
        if hazard.word != "danger":
            continue
        for injury in injuries_in((hazard.hazard, hazard.harm or "")):
            if injury not in told:
                told.add(injury)  # asked once, where it is met first
                yield Found(
                    hazard.at, f"What is done first after {injury}? “{hazard.hazard}” can lead to it.",
                    "Add a line to `accident:` of the shop, as first aid where you live teaches it.",
                    place.owner_id,
                )


RULE = Rule(
    code="accident-unsaid",
    level=Level.QUESTION,
    summary="Nobody has said what to do after an accident, or after one that the pages warn of.",
    reason="In the minute after, nobody looks anything up. What to do first must be on the page by the "
    "door before it is needed.",
    passes="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
accident:
  - Call 112. Say where, what has happened and how many are hurt.
  - Burn - cool running water, twenty minutes.
=== tools/machines/furnace.yml
machine: furnace
title: Furnace
hazards:
  - hazard: splash
    word: danger
    harm: Molten metal burns to the bone.
    avoid: Nothing damp near the pot.
""",
    fails="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
accident:
  - Call 112. Say where, what has happened and how many are hurt.
=== tools/machines/furnace.yml
machine: furnace
title: Furnace
hazards:
  - ▸hazard: splash
    word: danger
    harm: Molten metal burns to the bone.
    avoid: Nothing damp near the pot.
""",
    check=check,
)
