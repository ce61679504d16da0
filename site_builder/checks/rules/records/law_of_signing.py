"""Rules on who may sign for what."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.lawful import against, breaches
from site_builder.notebook.finding import Found, Level
from site_builder.skills.breach import Article
from site_builder.skills.entry_dates import MEND


def law_signer(analysis: Analysis) -> Iterator[Found]:
    for breach in breaches(analysis, Article.SIGNER):
        entry = next(one for one in analysis.notebook.sign_offs if one.number == breach.number)
        if entry.who is None or entry.who in analysis.notebook.people:  # an unknown one is told by record-who
            yield Found(breach.at, breach.message, f"{breach.fix} {MEND.format(breach.number)}",
                        f"sign-off {breach.number}")


LAW_SIGNER = Rule(
    "law-signer", Level.ERROR, "Somebody signed who may not.",
    "Only who teaches a skill on that day may say that another has learned it; with the founders of the shop the "
    "chain begins. Any other word is worth nothing.",
    """\
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
✓ level: teaches
✓ override: He teaches it already.
✗ level: alone
✗ override: There was no book before.
---
sign-off: 2
who: ▸josk
date: 2026-06-19
learner: ansa
skill: filing
level: beside
""", law_signer,
)


LAW_SAYS = Rule(
    "law-says", Level.ERROR,
    "A sign-off does not say who has shown what, or names an item that is not on the checklist.",
    "An entry with a hole in it can be filled in afterwards by anybody. It names the learner, the skill, the "
    "day, and a level or the items that were shown.",
    """\
=== skills/filing.yml
skill: filing
title: Filing
checklist:
  - {id: card, show: Cards a file.}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
✓ items: card
✗ items: [card, ▸crad]
""", against(Article.SAYS),
)


LAW_NEEDS = Rule(
    "law-needs", Level.ERROR, "A skill was signed before what it needs first.",
    "Who pours metal must be able to stop the pot. The order in which things are learned has its reason, and it "
    "is safety more often than not.",
    """\
=== skills/people.yml
people:
  edda: {name: Edda, founding: true}
  josk: Josk
=== skills/melting.yml
skill: melting
title: Melting
=== skills/casting.yml
skill: casting
title: Casting
needs: {skill: melting, level: beside}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: melting
✓ level: beside
✗ level: watches
---
sign-off: 2
who: edda
date: 2026-06-19
learner: ▸josk
skill: casting
level: beside
""", against(Article.NEEDS),
)


LAW_LEVEL = Rule(
    "law-level", Level.ERROR, "A level was signed before the items of the checklist that it rests on.",
    "Nobody works out of sight of the teacher who has not worked beside him, and nobody alone before each item "
    "of the checklist is signed. The list is there so that nothing is forgotten with those one likes.",
    """\
=== skills/filing.yml
skill: filing
title: Filing
checklist:
  - {id: card, show: Cards a file.}
  - {id: along, show: Files without a flat.}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
✗ level: ▸alone
items: card
✓ ---
✓ sign-off: 2
✓ who: edda
✓ date: 2026-06-19
✓ learner: josk
✓ skill: filing
✓ level: alone
✓ items: along
""", against(Article.LEVEL),
)
