from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.able import name_of, title_of
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for held in analysis.holders.held.values():
        if held.stale_since is not None and held.person in analysis.notebook.living and held.entry.learner is not None:
            yield Found(
                held.entry.learner.at,
                f"“{title_of(analysis, held.skill)}” rests with {name_of(analysis, held.person)} since "
                f"{held.stale_since.isoformat()}: no practice of it stands in the books for so long.",
                "Let it be done beside a teacher and enter the practice, or sign it anew after a look.", held.person,
            )


RULE = Rule(
    code="law-stale",
    level=Level.WARNING,
    summary="A skill that rests: the time of `refresh` has passed without practice.",
    reason="A hand that has not done it for a year believes that it still can. Until somebody entitled "
    "has looked at it again, or it was practised beside a teacher, the skill rests.",
    passes="""\
=== skills/filing.yml
skill: filing
title: Filing
refresh: 12 mo
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
skill: filing
steps: File along the parting line.
=== skills/people.yml
people:
  edda: {name: Edda, founding: true}
  josk: Josk
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2024-05-06
learner: josk
skill: filing
level: alone
override: There was no book before.
=== skills/records/practice.yml
---
practice: 1
who: edda
date: 2024-06-01
procedure: file-arm
pieces: 12
---
practice: 2
who: josk
date: 2025-11-24
procedure: file-arm
pieces: 12
""",
    fails="""\
=== skills/filing.yml
skill: filing
title: Filing
refresh: 12 mo
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
skill: filing
steps: File along the parting line.
=== skills/people.yml
people:
  edda: {name: Edda, founding: true}
  josk: Josk
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2024-05-06
learner: ▸josk
skill: filing
level: alone
override: There was no book before.
=== skills/records/practice.yml
---
practice: 1
who: edda
date: 2024-06-01
procedure: file-arm
pieces: 12
---
practice: 2
who: josk
date: 2025-11-23
procedure: file-arm
pieces: 12
""",
    check=check,
)
