from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.people import Skill


def check(analysis: Analysis) -> Iterator[Found]:
    signed = {str(entry.skill) for entry in analysis.notebook.sign_offs if entry.skill is not None}
    for skill, place in analysis.index.of(Skill):
        nameless = [show for show in skill.checklist if show.id is None]
        if nameless and place.owner_id in signed:
            others = f" {len(nameless) - 1} more have none either." if len(nameless) > 1 else ""
            yield Found(
                nameless[0].at,
                f"What is “{nameless[0].show}” called when it is signed on the checklist of “{skill.title}”?{others}",
                "Give the item an `id`, one short word: `{id: card, show: Cards a file.}`.", place.owner_id,
            )


RULE = Rule(
    code="item-nameless",
    level=Level.QUESTION,
    summary="An item of a checklist has no id, so it cannot be signed.",
    reason="The items are signed one by one, and each entry of the book names them by their ids.",
    passes="""\
=== skills/filing.yml
skill: filing
title: Filing
checklist: [{id: card, show: Cards a file.}]
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: beside
""",
    fails="""\
=== skills/filing.yml
skill: filing
title: Filing
checklist: [▸Cards a file., {id: along, show: Files without a flat.}]
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: beside
""",
    check=check,
)
