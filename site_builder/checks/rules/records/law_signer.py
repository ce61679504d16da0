from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.lawful import breaches
from site_builder.checks.rules.records.standing import MEND
from site_builder.notebook.finding import Found, Level
from site_builder.skills.breach import Article


def check(analysis: Analysis) -> Iterator[Found]:
    for breach in breaches(analysis, Article.SIGNER):
        entry = next(one for one in analysis.notebook.sign_offs if one.number == breach.number)
        if entry.who is None or entry.who in analysis.notebook.people:  # an unknown one is told by record-who
            yield Found(breach.at, breach.message, f"{breach.fix} {MEND.format(breach.number)}",
                        f"sign-off {breach.number}")


RULE = Rule(
    code="law-signer",
    level=Level.ERROR,
    summary="Somebody signed who may not.",
    reason="Only who teaches a skill on that day may say that another has learned it; with the founders "
    "of the shop the chain begins. Any other word is worth nothing.",
    passes="""\
=== skills/people.yml
people:
  edda: {name: Edda, founding: true}
  josk: Josk
  ansa: Ansa
=== skills/filing.yml
skill: filing
title: Filing
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-03-02
learner: josk
skill: filing
level: teaches
override: He teaches it already.
---
sign-off: 2
who: josk
date: 2026-06-19
learner: ansa
skill: filing
level: beside
""",
    fails="""\
=== skills/people.yml
people:
  edda: {name: Edda, founding: true}
  josk: Josk
  ansa: Ansa
=== skills/filing.yml
skill: filing
title: Filing
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-03-02
learner: josk
skill: filing
level: alone
override: There was no book before.
---
sign-off: 2
who: ▸josk
date: 2026-06-19
learner: ansa
skill: filing
level: beside
""",
    check=check,
)
