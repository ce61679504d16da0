from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.standing import MEND, standing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.records import Practice, Trial


def check(analysis: Analysis) -> Iterator[Found]:
    books = standing(analysis, Practice), standing(analysis, Trial)
    entries: Iterator[tuple[Practice | Trial, Place]] = chain(*books)
    for entry, place in entries:
        if entry.teacher is not None and entry.teacher == entry.who:
            yield Found(
                entry.teacher.at, f"`{entry.who}` stands here as his or her own teacher.",
                MEND.format(entry.number), place.owner_id,
            )


RULE = Rule(
    code="own-teacher",
    level=Level.ERROR,
    summary="Somebody practised, or was tried, as his own teacher.",
    reason="The teacher is the second pair of eyes. Nobody sees the faults that his own hands make.",
    passes="""\
=== skills/records/practice.yml
---
practice: 1
who: ansa
teacher: tilde
""",
    fails="""\
=== skills/records/practice.yml
---
practice: 1
who: ansa
teacher: ▸ansa
=== skills/records/trials.yml
---
trial: 1
who: ansa
teacher: ▸ansa
""",
    check=check,
)
