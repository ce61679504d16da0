from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.standing import MEND, standing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.records import Practice
from site_builder.skills.readings import figures_of


def check(analysis: Analysis) -> Iterator[Found]:
    for entry, place in standing(analysis, Practice):
        pieces, scrap, rework = _count(entry.pieces), _count(entry.scrap), _count(entry.rework)
        last = entry.scrap if entry.rework is None else entry.rework
        if last is not None and pieces is not None and (scrap or 0) + (rework or 0) > pieces:
            told = " and ".join(text for text in (
                f"{entry.scrap} scrapped" if scrap else "", f"{entry.rework} done again" if rework else "",
            ) if text)
            yield Found(
                last.at, f"Of {entry.pieces} pieces {told}: that is more than were made.",
                MEND.format(entry.number), place.owner_id,
            )


def _count(written: Written | None) -> Fraction | None:
    found = None if written is None else figures_of(written.value)
    return None if found is None else found.aim_low


RULE = Rule(
    code="more-than-made",
    level=Level.ERROR,
    summary="More pieces failed than were made.",
    reason="The share of good pieces decides over a sign-off. A piece is good, or scrap, or done again, "
    "and counted once.",
    passes="""\
=== skills/records/practice.yml
---
practice: 1
who: tilde
pieces: 40
scrap: 2
rework: 3
""",
    fails="""\
=== skills/records/practice.yml
---
practice: 1
who: tilde
pieces: 40
scrap: 2
rework: ▸39
""",
    check=check,
)
