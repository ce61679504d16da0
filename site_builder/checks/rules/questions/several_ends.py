from __future__ import annotations

from collections.abc import Iterator, Mapping

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.judging import doing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.judging import End

_BY: Mapping[str, str] = {
    "clock": "the clock", "count": "the count", "sign": "the sign", "feel": "the feel",
    "check": "the test", "state": "what is measured",
}


def check(analysis: Analysis) -> Iterator[Found]:
    for end, place in analysis.index.of(End):
        told = end.ways()
        if len(told) > 1 and end.wins is None and "wins" not in end.asked:
            signs = ", ".join(_BY[one] for one in told[:-1])
            yield Found(
                end.at, f"{doing(place)}: over by {signs} or {_BY[told[-1]]}, which of them decides?",
                "Add `wins:` with `first`, `last`, or the one that decides.", place.owner_id,
            )


RULE = Rule(
    code="several-ends",
    level=Level.QUESTION,
    summary="Several signs that a thing is over, and not a word on which of them decides.",
    reason="The clock says stop and the hand says not yet. Somebody has to have said which of the two is "
    "right.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Let the belt run up.
    until: {clock: about 30 s, sign: The belt has stopped wandering., wins: last}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Let the belt run up.
    until: ▸{clock: about 30 s, sign: The belt has stopped wandering.}
""",
    check=check,
)
