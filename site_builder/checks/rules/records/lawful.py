"""Rules out of the law of sign-offs: one shape for all its articles."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Check
from site_builder.notebook.finding import Found
from site_builder.skills.breach import Article, Breach
from site_builder.skills.entry_dates import MEND


def against(article: Article) -> Check:
    """A check that tells every entry against an article of the law, unless a later entry has answered it."""

    def check(analysis: Analysis) -> Iterator[Found]:
        for breach in breaches(analysis, article):
            yield Found(breach.at, breach.message, f"{breach.fix} {MEND.format(breach.number)}",
                        f"sign-off {breach.number}")

    return check


def breaches(analysis: Analysis, article: Article) -> Iterator[Breach]:
    """What is against one article."""
    return (breach for breach in analysis.law.breaches if breach.article is article)
