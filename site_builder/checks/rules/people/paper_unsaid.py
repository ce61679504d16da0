from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.able import name_of, title_of
from site_builder.notebook.finding import Found, Level
from site_builder.skills.papers import BESIDE, papers_asked


def check(analysis: Analysis) -> Iterator[Found]:
    for id_, person in analysis.notebook.living.items():
        if "papers" in person.asked:
            continue
        untold: dict[str, list[str]] = {}
        for held in analysis.holders.of_person(id_) if analysis.notebook.skills else ():
            for one in papers_asked(analysis.notebook, id_, held.skill, analysis.today) if held.rank >= BESIDE else ():
                if one.untold:
                    untold.setdefault(str(one.paper.paper), []).append(title_of(analysis, held.skill))
        for paper, skills in untold.items():
            asking = ", ".join(f"“{skill}”" for skill in skills)
            yield Found(
                person.at,
                f"Does {name_of(analysis, id_)} hold “{paper}”, and since when? It is asked for by {asking}.",
                f"Add it under `papers`: `{{paper: {paper}, date: …}}`; where it is not there, nothing of this is done "
                "until it is.",
                id_,
            )


RULE = Rule(
    code="paper-unsaid",
    level=Level.QUESTION,
    summary="A licence or certificate that a skill asks for, and that is not written with who holds the skill.",
    reason="A paper that nobody has written down may hang on the wall, or may never have been there. "
    "It is asked for before somebody is hurt, and not after.",
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
    papers: {paper: Mask fit test, date: 2026-03-10}
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
    ▸name: Tilde
    papers: {paper: First aid, date: 2026-03-10}
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
