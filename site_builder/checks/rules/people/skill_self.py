from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.people import Skill


def check(analysis: Analysis) -> Iterator[Found]:
    for skill, place in analysis.index.of(Skill):
        for need in skill.needs:
            if need.skill == skill.skill:
                yield Found(
                    need.skill.at, f"“{skill.title}” needs itself, so nobody could ever begin to learn it.",
                    "Name the skill that must be held first, or take the line away.", place.owner_id,
                )


RULE = Rule(
    code="skill-self",
    level=Level.ERROR,
    summary="A skill that needs itself.",
    reason="What is needed first must be something else; otherwise there is no first step.",
    passes="""\
=== skills/casting.yml
skill: casting
title: Casting
needs: alloy-keeping
=== skills/alloy-keeping.yml
skill: alloy-keeping
title: Keeping the alloy
""",
    fails="""\
=== skills/casting.yml
skill: casting
title: Casting
needs:
  - skill: ▸casting
    level: within call
""",
    check=check,
)
