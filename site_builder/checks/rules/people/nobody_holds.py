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
        if analysis.holders.able(place.owner_id):
            continue
        known = analysis.holders.of_skill(place.owner_id)
        nearest = f" {name_of(analysis, known[0].person)} comes nearest: `{known[0].level}`." if known else ""
        yield Found(
            skill.at, f"Nobody in the shop can do “{skill.title}” alone.{nearest}",
            "Let somebody entitled sign for whoever can, or find who still knows it and write it down now.",
            place.owner_id,
        )


RULE = Rule(
    code="nobody-holds",
    level=Level.WARNING,
    summary="A skill that nobody in the shop holds alone.",
    reason="What nobody can do any more is half lost. Somebody who has left may still be asked.",
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
level: alone
""",
    fails="""\
=== skills/filing.yml
▸skill: filing
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
level: within call
""",
    check=check,
)
