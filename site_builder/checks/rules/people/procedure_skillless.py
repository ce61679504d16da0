from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.gather import skills_of
from site_builder.notebook.model.procedure import Procedure


def check(analysis: Analysis) -> Iterator[Found]:
    notebook = analysis.notebook
    if notebook.unread:  # the skill that covers it may be among what could not be read
        return
    covered = {str(one) for skill in notebook.skills.values() for one in skill.covers}
    skilled = {id_ for id_, own in notebook.procedures.items() if id_ in covered or skills_of(own)}
    for procedure, place in analysis.index.of(Procedure):
        id_ = place.owner_id
        if id_ in skilled or procedure.where is not None or "skill" in procedure.asked:
            continue
        links = analysis.references.used_in("procedure", id_)
        users = {link.place.owner_id for link in links if link.key == "use"}
        if not users or not users <= skilled:
            yield Found(
                procedure.at, f"Who may do this alone: “{procedure.title}”?",
                "Add `skill:` with the skill one must hold for it.", id_,
            )


RULE = Rule(
    code="procedure-skillless",
    level=Level.QUESTION,
    summary="A procedure that names no skill.",
    reason="Only where the skill is written can the notebook say who can do this work, who may learn it "
    "next, and what would be lost if somebody left.",
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
▸procedure: file-foot
title: File the foot
steps: File along the parting line.
""",
    check=check,
)
