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
            if same_dimensions(before.found.unit, row.found.unit) and _overlap(before.found, row.found):
                yield Found(
                    row.text.at, f"`{row.text}` and `{before.text}` hold for the same figures.",
                    "Let one row begin where the other ends.", rows.place.owner_id,
                )


def _overlap(before: Bounds, after: Bounds) -> bool:
    """Whether more than an end is shared. A row that is one figure alone may not stand within another."""
    if before.high is None or after.low is None:
        return True
    return after.low < before.high or (before.low, before.high) == (after.low, after.high)


RULE = Rule(
    code="table-overlap",
    level=Level.ERROR,
    summary="Two rows of a table hold for the same figure.",
    reason=(
        "At 20 °C two rows would be right, and the page cannot say which. Only the end of a row may be "
        "shared."
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
      12..20 °C: 3 %
      ▸18..24 °C: 2 %
""",
    check=check,
)
