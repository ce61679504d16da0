from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.sealed import SEALED
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    verdict = analysis.verdicts.get("sign-off")
    if verdict is not None and verdict.book is not None and verdict.book.entries and not verdict.sealed:
        yield Found(verdict.book.entries[0].at, "Nothing shows whether this book is as it was written.",
                    "Look through it once more, then bring it under seal with `benchlore seal`.", "sign-off 1")


RULE = Rule(
    code="seal-none",
    level=Level.WARNING,
    summary="The book of sign-offs is not under seal.",
    reason="As long as it is not, anybody can change what was signed, and nobody will see it.",
    passes=SEALED,
    fails="""\
=== skills/records/sign-offs.yml
---
▸sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: beside
""",
    check=check,
)
