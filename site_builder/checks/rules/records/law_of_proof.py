"""Rules on what a sign-off rests on."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.able import name_of, title_of
from site_builder.checks.rules.records.lawful import against
from site_builder.notebook.finding import Found, Level
from site_builder.skills.breach import Article

LAW_PROOF = Rule(
    "law-proof", Level.ERROR, "The proof that a skill asks for does not stand in the books.",
    "How many pieces, how many of them good, how sure one wants to be: the skill says so itself. Who signs "
    "without it writes down why, and the reason stands on every page.",
    """\
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
skill: filing
steps: File along the parting line.
=== skills/filing.yml
skill: filing
title: Filing
proof: {pieces: 30, share: min 90 %}
=== skills/records/practice.yml
---
practice: 1
who: josk
date: 2026-06-18
procedure: file-arm
pieces: 30
✓ rework: 3
✗ rework: 4
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: ▸alone
evidence: practice 1
""", against(Article.PROOF),
)


LAW_EVIDENCE = Rule(
    "law-evidence", Level.ERROR,
    "A sign-off rests on an entry that is not there, or is not of this learner and this skill.",
    "Evidence is named so that anybody can look it up. What leads to nothing, or to the work of another, shows "
    "nothing.",
    """\
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
skill: filing
steps: File along the parting line.
=== skills/filing.yml
skill: filing
title: Filing
=== skills/records/practice.yml
---
practice: 1
✓ who: josk
✗ who: tilde
date: 2026-06-18
procedure: file-arm
pieces: 30
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: beside
✓ evidence: practice 1
✗ evidence: [▸practice 1, ▸practice 2]
""", against(Article.EVIDENCE),
)


LAW_WITHDRAWAL = Rule(
    "law-withdrawal", Level.ERROR, "A sign-off is taken back or corrected that does not stand, or without a reason.",
    "A withdrawal says that somebody was wrong. It names the one entry that is meant, and why.",
    """\
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: beside
---
sign-off: 2
who: edda
date: 2026-06-20
withdraws: ▸1
✗ ---
✗ sign-off: 3
✗ who: edda
✗ date: 2026-06-21
✗ withdraws: ▸7
because: He took the file that had been on steel.
""", against(Article.TAKES_BACK),
)


def law_stale(analysis: Analysis) -> Iterator[Found]:
    for held in analysis.holders.held.values():
        if held.stale_since is not None and held.person in analysis.notebook.living and held.entry.learner is not None:
            yield Found(
                held.entry.learner.at,
                f"“{title_of(analysis, held.skill)}” rests with {name_of(analysis, held.person)} since "
                f"{held.stale_since.isoformat()}: no practice of it stands in the books for so long.",
                "Let it be done beside a teacher and enter the practice, or sign it anew after a look.", held.person,
            )


LAW_STALE = Rule(
    "law-stale", Level.WARNING, "A skill that rests: the time of `refresh` has passed without practice.",
    "A hand that has not done it for a year believes that it still can. Until somebody entitled has looked at it "
    "again, or it was practised beside a teacher, the skill rests.",
    """\
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
✓ date: 2025-11-24
✗ date: 2025-11-23
procedure: file-arm
pieces: 12
""", law_stale,
)
