from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing.signers import Signed, signers
from site_builder.checks.rules.possible.life_doubtful import YOUNGEST
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for one in signers(analysis):
        absent = "" if one.told else _absent(one)
        if absent:
            yield Found(
                one.who.at, f"{one.person.name} {absent}, and this is signed on {one.date}.",
                f"Name who did it instead of `{one.who}`, or put right the day.", one.owner,
            )


def _absent(one: Signed) -> str:
    person, day = one.person, one.date.value
    if person.born is not None and day.last.year < person.born.value.first.year + YOUNGEST:
        return ""  # not even born: that is told as an error
    if person.joined is not None and day.last < person.joined.value.first:
        return f"joined only in {person.joined}"
    if person.left is not None and day.first > person.left.value.last:
        return f"left in {person.left}"
    return ""


RULE = Rule(
    code="signed-absent",
    level=Level.WARNING,
    summary="Something signed on a day on which whoever signs was not in the shop.",
    reason="Either the day or the name is wrong, and whoever wants to ask one day will ask the wrong one.",
    passes="""\
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
steps: File along the line.
revisions: {date: 1990-03-20, who: havel, what: Both eyes in one setting.}
=== skills/people.yml
people:
  havel: {name: Havel, born: 1919, joined: 1946, left: 1994}
""",
    fails="""\
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
steps: File along the line.
revisions: {date: 2006-03-20, who: ▸havel, what: Both eyes in one setting.}
=== skills/people.yml
people:
  havel: {name: Havel, born: 1919, joined: 1946, left: 1994}
""",
    check=check,
)
