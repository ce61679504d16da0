from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.quoted import quoted
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.judging import Trouble


def check(analysis: Analysis) -> Iterator[Found]:
    for trouble, place in analysis.index.of(Trouble):
        if not trouble.cause and "cause" not in trouble.asked:
            yield Found(
                trouble.at, f"Why does it happen: {quoted(trouble.sign)}?",
                "Add `cause:`; of several the likeliest first, or a trouble for each that has its own remedy.",
                place.owner_id,
            )


RULE = Rule(
    code="trouble-causeless",
    level=Level.QUESTION,
    summary="A trouble without its cause.",
    reason="A remedy without its cause is tried in all cases, also in those in which it makes things worse.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
troubles: {sign: It rocks., cause: The belt is worn., do: Change the belt., then: again}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
troubles: ▸{sign: It rocks., do: Change the belt., then: again}
""",
    check=check,
)
