from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.standing import MEND, answered
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.parsed_values import Dated


def check(analysis: Analysis) -> Iterator[Found]:
    gone = answered(analysis.notebook)
    for book, entries in analysis.notebook.books.items():
        latest: Dated | None = None
        for entry in entries:
            if entry.date is None or f"{book} {entry.number}" in gone:
                continue
            if latest is not None and entry.date.value.last < latest.value.first:
                yield Found(
                    entry.date.at, f"{entry.date} is before {latest}, the date of an earlier entry.",
                    MEND.format(entry.number), f"{book} {entry.number}",
                )
            else:
                latest = entry.date


RULE = Rule(
    code="date-backward",
    level=Level.ERROR,
    summary="An entry is older than the one before it.",
    reason="A book that is only added to runs forward in time. A date that goes back was slipped in "
    "later, or is a slip of the pen.",
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
