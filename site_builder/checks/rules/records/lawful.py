"""Rules out of the law of sign-offs: one shape for all its articles."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.checks.rule import Check
from site_builder.checks.rules.records.standing import MEND
from site_builder.checks.survey import Survey
from site_builder.mastery.law import Article, Breach
from site_builder.notebook.finding import Found


def against(article: Article) -> Check:
    """A check that tells every entry against an article of the law, unless a later entry has answered it."""

    def check(survey: Survey) -> Iterator[Found]:
        for breach in breaches(survey, article):
            yield Found(breach.at, breach.message, f"{breach.mend} {MEND.format(breach.number)}",
                        f"sign-off {breach.number}")

    return check


def breaches(survey: Survey, article: Article) -> Iterator[Breach]:
    """What is against one article."""
    return (breach for breach in survey.law.breaches if breach.article is article)
