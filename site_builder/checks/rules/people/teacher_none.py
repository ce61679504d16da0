from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.able import signed
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.people import Skill


def check(analysis: Analysis) -> Iterator[Found]:
    if not signed(analysis):
        return
    for skill, place in analysis.index.of(Skill):
        if analysis.holders.able(place.owner_id) and not analysis.holders.teachers(place.owner_id):
            yield Found(
                skill.at, f"“{skill.title}” is still done here, but nobody left is signed to teach it.",
                "Sign who can teach it, while somebody entitled to sign is here.", place.owner_id,
            )


RULE = Rule(
    code="teacher-none",
    level=Level.WARNING,
    summary="A skill that nobody in the shop teaches.",
    reason="Only who teaches a skill may sign for it. Where no teacher is left, it ends with those who "
    "hold it now.",
    passes="""\
=== skills/filing.yml
skill: filing
title: Filing
=== skills/people.yml
people: {edda: {name: Edda, founding: yes}, josk: Josk}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: teaches
""",
    fails="""\
=== skills/filing.yml
▸skill: filing
title: Filing
=== skills/people.yml
people: {edda: {name: Edda, left: 2026-07, founding: yes}, josk: Josk}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: alone
""",
    check=check,
)
