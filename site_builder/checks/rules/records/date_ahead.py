from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.standing import MEND
from site_builder.notebook.finding import Found, Level
from site_builder.skills.entry_dates import NOT_YET, answered_in, lies_ahead


def check(analysis: Analysis) -> Iterator[Found]:
    for book, entries in analysis.notebook.books.items():
        gone = answered_in(entries)
        for entry in entries:
            if entry.date is not None and entry.number not in gone and lies_ahead(entry, analysis.today):
                yield Found(
                    entry.date.at, NOT_YET.format(entry.date),
                    f"Look at the clock first. {MEND.format(entry.number)}", f"{book} {entry.number}",
                )


RULE = Rule(
    code="date-ahead",
    level=Level.ERROR,
    summary="An entry is dated later than tomorrow.",
    reason="A clock was set wrong, or a finger slipped. Such an entry counts for nothing until it is answered, and is "
    "no measure for the days of those after it.",
    passes="""\
=== skills/records/practice.yml
---
practice: 1
who: tilde
date: 2026-06-19
""",
    fails="""\
=== skills/records/practice.yml
---
practice: 1
who: tilde
date: ▸2126-06-19
""",
    check=check,
)
