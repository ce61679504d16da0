from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.unknown import lost_links
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    if not analysis.notebook.people:
        return
    for link, fix in lost_links(analysis, people=True):
        yield Found(
            link.at, f"`{link.text}` is nobody of the shop.",
            f"{fix} Who has left stays in `people.yml`, with `left`.", link.place.owner_id,
        )


RULE = Rule(
    code="record-who",
    level=Level.ERROR,
    summary="An entry names somebody whom nobody knows.",
    reason="The word of an unknown is worth nothing, and what he has shown helps nobody.",
    passes="""\
=== skills/people.yml
people: {tilde: Tilde, ansa: Ansa}
=== skills/records/practice.yml
---
practice: 1
who: ansa
teacher: tilde
""",
    fails="""\
=== skills/people.yml
people: {tilde: Tilde, ansa: Ansa}
=== skills/records/practice.yml
---
practice: 1
who: ansa
teacher: ▸tidle
""",
    check=check,
)
