from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.papers import papers_of
from site_builder.notebook.finding import Found, Level

AHEAD = timedelta(days=60)
"""How long before the day one is told: time enough for a date at the doctor's (common practice)."""


def check(analysis: Analysis) -> Iterator[Found]:
    for paper in papers_of(analysis):
        gone = paper.last < analysis.today
        if paper.last - analysis.today > AHEAD or (gone and paper.skills):  # of these `paper-lapsed` speaks
            continue
        until = "was good until" if gone else "is good until"
        rests = ", ".join(f"“{skill}”" for skill in paper.skills)
        then = f" After that this rests: {rests}." if rests else ""
        yield Found(
            paper.at, f"“{paper.paper}” of {paper.name} {until} {paper.last.isoformat()}.{then}",
            "Have it renewed, and add a line with the new date under `papers`.", paper.person,
        )


RULE = Rule(
    code="paper-lapsing",
    level=Level.WARNING,
    summary="A licence or certificate that ends within 60 days, or has ended.",
    reason="The office, the doctor or the course has no date free in the week in which one needs it.",
    passes="""\
=== skills/people.yml
people:
  josk:
    name: Josk
    papers: {paper: First aid, valid: 24 mo, date: 2025-10-06}
""",
    fails="""\
=== skills/people.yml
people:
  josk:
    name: Josk
    papers: {paper: First aid, valid: 24 mo, date: ▸2025-01-10}
""",
    check=check,
)
