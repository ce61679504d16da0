from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.sealed import SEALED
from site_builder.notebook.finding import Found, Level
from site_builder.skills.book import book_path


def check(analysis: Analysis) -> Iterator[Found]:
    for kind, verdict in analysis.verdicts.items():
        for entry in analysis.notebook.books.get(kind, ()) if verdict.sealed else ():
            if entry.at.path != book_path(kind):
                yield Found(entry.at, f"This entry stands outside {book_path(kind)}, which is under seal.",
                            f"Enter it with `benchlore {'sign' if kind == 'sign-off' else f'log {kind}'}`, and take "
                            "it out here.", f"{kind} {entry.number}")


RULE = Rule(
    code="seal-beside",
    level=Level.ERROR,
    summary="An entry stands outside the book under seal to which it belongs.",
    reason="Only what stands in the book itself is under its seals. Beside it anybody can put what was "
    "never signed.",
    passes=SEALED,
    fails=SEALED + """\
=== skills/records/more.yml
---
▸sign-off: 3
who: edda
date: 2026-06-21
learner: ansa
skill: filing
level: alone
""",
    check=check,
)
