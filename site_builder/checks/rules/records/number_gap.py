from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.standing import whole
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for book, entries in analysis.notebook.books.items():
        expected = 1
        for entry in entries:
            number = entry.number
            if number != expected and whole(analysis.notebook, entry):
                after = f"after {book} {expected - 1}" if expected > 1 else "at the beginning of the book"
                yield Found(
                    entry.number_text.at, f"Here stands {book} {number}; {after} comes {expected}.",
                    f"Write `{book}: {expected}`; if entries are lost, look for them in an older copy.",
                    f"{book} {number}",
                )
            expected = number + 1


RULE = Rule(
    code="number-gap",
    level=Level.ERROR,
    summary="The numbers of a book do not count up by one.",
    reason="A missing number is a torn-out page. Evidence points at entries by their number, so each "
    "stands once and none is left out.",
    passes="""\
=== skills/records/practice.yml
---
practice: 1
who: tilde
date: 2026-06-19
---
practice: 2
who: tilde
date: 2026-06-20
""",
    fails="""\
=== skills/records/practice.yml
---
practice: 1
who: tilde
date: 2026-06-19
---
practice: ▸3
who: tilde
date: 2026-06-20
---
practice: 4
who: tilde
date: 2026-06-21
""",
    check=check,
)
