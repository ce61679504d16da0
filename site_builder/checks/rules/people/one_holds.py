from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.able import name_of, signed
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.people import Skill


def check(analysis: Analysis) -> Iterator[Found]:
    if not signed(analysis):
        return
    for skill, place in analysis.index.of(Skill):
        able = analysis.holders.able(place.owner_id)
        if len(able) == 1:
            learning = [held for held in analysis.holders.of_skill(place.owner_id) if held.person != able[0]]
            next_one = f" {name_of(analysis, learning[0].person)} is `{learning[0].level}`." if learning else ""
            only = name_of(analysis, able[0])
            yield Found(
                skill.at, f"If {only} left tomorrow, nobody could do “{skill.title}” alone.{next_one}",
                "Choose who learns it next, while there is somebody to learn it from.", place.owner_id,
            )


RULE = Rule(
    code="one-holds",
    level=Level.WARNING,
    summary="A skill that only one person in the shop holds alone.",
    reason="A broken arm is enough to stop the work, and a funeral to lose it.",
    passes="""\
=== skills/filing.yml
skill: filing
title: Filing
=== skills/people.yml
people: {edda: {name: Edda, founding: yes}, josk: Josk, tilde: Tilde}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: alone
---
sign-off: 2
who: edda
date: 2026-08-03
learner: tilde
skill: filing
level: alone
""",
    fails="""\
=== skills/filing.yml
▸skill: filing
title: Filing
=== skills/people.yml
people: {edda: {name: Edda, founding: yes}, josk: Josk, tilde: Tilde}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: alone
---
sign-off: 2
who: edda
date: 2026-08-03
learner: tilde
skill: filing
level: beside
""",
    check=check,
)
