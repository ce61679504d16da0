from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.quoted import quoted
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.judging import judged_by_feel
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for feel, place in judged_by_feel(analysis):
        if feel.good and not feel.bad and "bad" not in feel.asked:
            yield Found(
                feel.at, f"{quoted(feel.good)} is good: what is it like when it is bad?",
                "Add `bad:` in the words of somebody who has felt it.", place.owner_id,
            )
        elif feel.bad and not feel.good and "good" not in feel.asked:
            yield Found(
                feel.at, f"{quoted(feel.bad[0])} is bad: what is it like when it is good?",
                "Add `good:` in the words of somebody who has felt it.", place.owner_id,
            )


RULE = Rule(
    code="feel-one-sided",
    level=Level.QUESTION,
    summary="A feel of which only one side is told.",
    reason="One learns a feel between two pieces, the good and the bad. With one of them alone the hand has "
    "nothing to compare.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Draw the edge over the fine belt.
    feel: {good: It runs over like a worn coin., bad: It catches the skin.}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Draw the edge over the fine belt.
    feel:
      - ▸good: It runs over like a worn coin.
      - ▸bad: It catches the skin.
""",
    check=check,
)
