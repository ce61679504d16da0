from __future__ import annotations

from collections.abc import Iterator

from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.standing import MEND, standing
from site_builder.checks.survey import Survey
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.records import SignOff


def check(survey: Survey) -> Iterator[Found]:
    for entry, place in standing(survey, SignOff):
        if entry.who is not None and entry.who == entry.learner:
            yield Found(
                entry.who.at, f"`{entry.who}` has signed for himself or herself.",
                MEND.format(entry.number) + " Somebody who teaches the skill signs it.", place.owner_id,
            )


RULE = Rule(
    code="own-sign-off",
    level=Level.ERROR,
    summary="Somebody signed for himself.",
    reason="A sign-off is the word of one who is entitled to give it, about another. Nobody signs for "
    "himself, not even the master.",
    passes="""\
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
learner: josk
skill: filing
level: alone
""",
    fails="""\
=== skills/records/sign-offs.yml
---
sign-off: 1
who: ▸josk
learner: josk
skill: filing
level: alone
""",
    check=check,
)
