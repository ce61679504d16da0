from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.papers import papers_of
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for paper in papers_of(analysis):
        if paper.skills and paper.last < analysis.today:
            rests = ", ".join(f"“{skill}”" for skill in paper.skills)
            yield Found(
                paper.at,
                f"“{paper.paper}” of {paper.name} was good until {paper.last.isoformat()}. "
                f"Until it is renewed, this rests: {rests}.",
                "Renew it, and add a line with the new date under `papers`.", paper.person,
            )


RULE = Rule(
    code="paper-lapsed",
    level=Level.ERROR,
    summary="A licence or certificate that a skill asks for is no longer valid.",
    reason="Without the paper the skill rests: a mask that was last tried on two years ago may let the "
    "vapour past.",
    passes="""\
=== skills/spraying.yml
skill: spraying
title: Spraying
papers: {paper: Mask fit test, valid: 12 mo}
=== skills/people.yml
people:
  edda: {name: Edda, founding: yes}
  tilde:
    name: Tilde
    papers: {paper: Mask fit test, date: 2025-11-24}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2024-03-01
learner: tilde
skill: spraying
level: alone
""",
    fails="""\
=== skills/spraying.yml
skill: spraying
title: Spraying
papers: {paper: Mask fit test, valid: 12 mo}
=== skills/people.yml
people:
  edda: {name: Edda, founding: yes}
  tilde:
    name: Tilde
    papers: {paper: Mask fit test, date: ▸2025-11-23}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2024-03-01
learner: tilde
skill: spraying
level: alone
""",
    check=check,
)
