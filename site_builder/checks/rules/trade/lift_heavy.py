from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import about, between, mass
from site_builder.figures.exposure import judged_lifts
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for lift, found in judged_lifts(analysis):
        if found.verdict.at_the_top:
            index = about(between(found.lifting_index.low, found.lifting_index.high, 2), lift.load.rough)
            message = (f"`{lift.load.input.written}` lifted so has a lifting index of {index}; from 3 on nearly "
                       "everybody is at risk of a hurt back.")
            if found.recommended.high > 0:
                message += f" Recommended is no more than {mass(found.recommended, lift.load.is_inch, 2)}."
            yield Found(
                lift.load.at, message,
                "Use a hoist or two people, bring it closer and up from the floor, or lift it in parts.",
                str(lift.procedure.procedure),
            )


RULE = Rule(
    code="lift-heavy",
    level=Level.WARNING,
    summary="A lift that is three times what is recommended or more.",
    reason=(
        "By the revised NIOSH equation a lifting index of 1 is what work is designed for; from 3 on nearly everybody "
        "who does it is at higher risk of a hurt back."
    ),
    passes="""\
=== procedures/foot/melt.yml
procedure: melt
title: Melt
steps:
  - do: Set the ingots on the rim.
    settings: {lift: 8 kg, reach: 35 cm, height: from 60 to 90 cm}
""",
    fails="""\
=== procedures/foot/melt.yml
procedure: melt
title: Melt
steps:
  - do: Set the ingots on the rim.
    settings: {lift: ▸32 kg, reach: 50 cm, height: from 10 to 90 cm}
""",
    check=check,
)
