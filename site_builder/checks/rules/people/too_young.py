from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.lawful import breaches
from site_builder.notebook.finding import Found, Level
from site_builder.skills.breach import Article


def check(analysis: Analysis) -> Iterator[Found]:
    learners = {entry.number: str(entry.learner) for entry in analysis.notebook.sign_offs}
    for breach in breaches(analysis, Article.AGE):
        yield Found(
            breach.at, breach.message,
            f"Withdraw this entry with a new one, or put the date of birth right. {breach.fix}",
            learners[breach.number],
        )


RULE = Rule(
    code="too-young",
    level=Level.ERROR,
    summary="Somebody holds a skill, and so works with a tool or a material, before the age that is "
    "written for it.",
    reason="The age stands there because somebody was hurt, or because the law says so. A sign-off does "
    "not make anybody older.",
    passes="""\
=== skills/grinding-flat.yml
skill: grinding-flat
title: Grinding flat
age: min 16 y
=== skills/people.yml
people:
  edda: {name: Edda, born: 1958}
  ansa: {name: Ansa, born: 2010-06-19}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: ansa
skill: grinding-flat
level: beside
""",
    fails="""\
=== skills/grinding-flat.yml
skill: grinding-flat
title: Grinding flat
age: min 16 y
=== skills/people.yml
people:
  edda: {name: Edda, born: 1958}
  ansa: {name: Ansa, born: 2010-06-20}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: ▸ansa
skill: grinding-flat
level: beside
""",
    check=check,
)
