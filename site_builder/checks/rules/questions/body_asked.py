from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.people import Skill


def check(analysis: Analysis) -> Iterator[Found]:
    for skill, place in analysis.index.of(Skill):
        if "hazards" not in skill.model_fields_set and "hazards" not in skill.asked:
            yield Found(
                skill.title.at, f"What does “{skill.title}” do to a body over the years?",
                "Add `hazards:` with what one does against it; `hazards: []` if nothing.", place.owner_id,
            )


RULE = Rule(
    code="body-asked",
    level=Level.QUESTION,
    summary="A skill that does not say what the work does to a body.",
    reason="A wrist, a back or an ear goes slowly, and when one notices it is too late to have known.",
    passes="""\
=== skills/filing.yml
skill: filing
title: Filing
hazards: {hazard: sore wrist, word: caution, avoid: "Half a day, then other work."}
""",
    fails="""\
=== skills/filing.yml
skill: filing
title: ▸Filing
""",
    check=check,
)
