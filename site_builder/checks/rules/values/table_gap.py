from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.tables import every_rows, measured
from site_builder.notebook.finding import Found, Level
from site_builder.quantity import Bounds, same_dimensions


def check(analysis: Analysis) -> Iterator[Found]:
    for rows in every_rows(analysis):
        for before, row in pairwise(measured(analysis, rows)):
            if same_dimensions(before.found.unit, row.found.unit) and _gap(before.found, row.found):
                yield Found(
                    row.text.at, f"Between `{before.text}` and `{row.text}` the table says nothing.",
                    "Let the row begin where the one before it ends.", rows.place.owner_id,
                )


def _gap(before: Bounds, after: Bounds) -> bool:
    if before.high is None or after.low is None:
        return False
    if before.unit.counted:  # 1..10 pieces and 11..20 pieces follow one another
        return after.low - before.high > 1
    return after.low > before.high or (after.low == before.high and not (before.high_in or after.low_in))


RULE = Rule(
    code="table-gap",
    level=Level.WARNING,
    summary="A figure between two rows of a table.",
    reason=(
        "Between the rows the stricter one holds, but the reader does not know that somebody thought of "
        "it."
    ),
    passes="""\
=== procedures/shared/mix-the-filler.yml
procedure: mix-the-filler
title: Mix the filler
steps: Weigh the hardener in.
conditions: {room temperature: 12..30 °C}
settings:
  hardener:
    by: room temperature
    is:
      12..18 °C: 3 %
      18..24 °C: 2 %
""",
    fails="""\
=== procedures/shared/mix-the-filler.yml
procedure: mix-the-filler
title: Mix the filler
steps: Weigh the hardener in.
conditions: {room temperature: 12..30 °C}
settings:
  hardener:
    by: room temperature
    is:
      12..18 °C: 3 %
      ▸20..24 °C: 2 %
""",
    check=check,
)
