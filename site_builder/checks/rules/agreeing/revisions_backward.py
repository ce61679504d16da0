from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for id_, own in analysis.notebook.procedures.items():
        dates = [one.date for one in own.revisions if one.date is not None]
        for before, after in pairwise(dates):
            if after.value.last < before.value.first:
                yield Found(
                    after.at, f"This revision of {after} stands after the one of {before}.",
                    "Put right the day; where both are right, put the newest last.", id_,
                )


RULE = Rule(
    code="revisions-backward",
    level=Level.WARNING,
    summary="Revisions whose days run backward.",
    reason="The newest stands last. A day out of order is most often a year typed wrong.",
    passes="""\
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
steps: File along the line.
revisions:
  - {date: 2006-03-20, what: Both eyes in one setting.}
  - {date: 2026-05-12, what: Timed over 24 pieces.}
""",
    fails="""\
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
steps: File along the line.
revisions:
  - {date: 2026-03-20, what: Both eyes in one setting.}
  - {date: ▸2020-05-12, what: Timed over 24 pieces.}
""",
    check=check,
)
