from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.standing import MEND
from site_builder.notebook.finding import Found, Level
from site_builder.skills.entry_dates import BEFORE, answered_in, backward


def check(analysis: Analysis) -> Iterator[Found]:
    for book, entries in analysis.notebook.books.items():
        for entry, latest in backward(entries, answered_in(entries), analysis.today):
            yield Found(
                entry.date.at if entry.date is not None else entry.at,
                BEFORE.format(entry.date, latest),
                MEND.format(entry.number),
                f"{book} {entry.number}",
            )


RULE = Rule(
    code="date-backward",
    level=Level.ERROR,
    summary="An entry is older than the one before it.",
    reason="A book that is only added to runs forward in time. A date that goes back was slipped in "
    "later, or is a slip of the pen. Two clocks may be a day apart. Where it is the earlier entry that has the wrong "
    "day, answer that one.",
    passes="""\
=== skills/records/practice.yml
---
practice: 1
who: tilde
date: 2026-06
---
practice: 2
who: tilde
date: 2026-06-19
""",
    fails="""\
=== skills/records/practice.yml
---
practice: 1
who: tilde
date: 2026-06-19
---
practice: 2
who: tilde
date: ▸2025-06-20
""",
    check=check,
)
