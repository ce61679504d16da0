from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.people import Skill
from site_builder.notebook.model.records import Record


def check(analysis: Analysis) -> Iterator[Found]:
    if analysis.notebook.unread:  # the procedure that names it may be among what could not be read
        return
    for skill, place in analysis.index.of(Skill):
        if skill.covers or "covers" in skill.asked:
            continue
        named = any(
            link.key == "skill" and not isinstance(link.place.owner, Record)
            for link in analysis.references.used_in("skill", place.owner_id)
        )
        if not named:
            yield Found(
                skill.at, f"“{skill.title}” is good for nothing: it covers no procedure, and none names it.",
                "Add `covers:` with the procedures that one can do who has it, or take the file away.",
                place.owner_id,
            )


RULE = Rule(
    code="skill-uncovering",
    level=Level.WARNING,
    summary="A skill that covers nothing and that nothing asks for.",
    reason="A skill is learned in order to do some work alone. Without the work nobody can tell when it "
    "is needed, or who would be missed.",
    passes="""\
=== procedures/foot/file-foot.yml
procedure: file-foot
title: File the foot
skill: filing
steps: File along the parting line.
=== skills/filing.yml
skill: filing
title: Filing
""",
    fails="""\
=== procedures/foot/file-foot.yml
procedure: file-foot
title: File the foot
steps: File along the parting line.
=== skills/filing.yml
▸skill: filing
title: Filing
""",
    check=check,
)
