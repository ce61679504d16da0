from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing.signers import signers
from site_builder.checks.rules.possible.life_doubtful import YOUNGEST
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for one in signers(analysis):
        born = one.person.born
        if born is not None and one.date.value.last.year < born.value.first.year + YOUNGEST:
            yield Found(
                one.date.at, f"{one.person.name} was born {born} and cannot have signed this on {one.date}.",
                f"Put right the day, name who did it instead of `{one.who}`, or put right `born` of {one.person.name}.",
                one.owner,
            )


RULE = Rule(
    code="signed-unborn",
    level=Level.ERROR,
    summary="A day on which whoever signs was not born yet, or under ten.",
    reason="A page that a child signed was signed by somebody else, and who that was will be asked one day.",
    passes="""\
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
steps: File along the line.
revisions: {date: 2006-03-20, who: josk, what: Both eyes in one setting.}
=== skills/people.yml
people:
  josk: {name: Josk, born: 1979, joined: 1996}
""",
    fails="""\
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
steps: File along the line.
revisions: {date: ▸1976-03-20, who: josk, what: Both eyes in one setting.}
=== skills/people.yml
people:
  josk: {name: Josk, born: 1979, joined: 1996}
""",
    check=check,
)
