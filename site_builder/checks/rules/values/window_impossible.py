from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.between import least_between
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.sums import shown
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Window


def check(analysis: Analysis) -> Iterator[Found]:
    held = reckoning(analysis)
    for window, place in analysis.index.of(Window):
        least = least_between(analysis, window, place)
        if not least:
            continue
        told = [
            (cell.written, found) for (_, cell), found in zip(window.cells(), held.bounds_of(window), strict=False)
            if cell.written is not None and found is not None and found.kind == "time" and found.high is not None
        ]
        # With a table only where every row is too short.
        if told and len(told) == len(list(window.cells())) and all(least > (one.high or 0) for _, one in told):
            written, found = told[0]
            yield Found(
                written.at,
                f"The steps between take {shown(found, least)} at the least, and the window closes after "
                f"{shown(found, found.high or least)}.",
                "Put right the window, the times and waits of the steps, or the moments it is counted between.",
                place.owner_id,
            )


RULE = Rule(
    code="window-impossible",
    level=Level.ERROR,
    summary="The steps between two moments take longer than their window is open.",
    reason=(
        "Even the quickest hands come too late. Either the window or the times of the steps are wrong."
    ),
    passes="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
materials: filler
steps:
  - id: mix
    do: Mix the filler.
  - {do: Warm the foot., time: 3 min}
  - do: Press it in.
    windows:
      working time: {is: max pot life, after: mix, above: {do: Throw it away., then: mix}}
=== tools/materials/filler.yml
material: filler
title: Two-part filler
properties: {pot life: about 5 min}
""",
    fails="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
materials: filler
steps:
  - id: mix
    do: Mix the filler.
  - {do: Warm the foot., time: 20 min}
  - do: Press it in.
    windows:
      working time: {is: ▸max pot life, after: mix, above: {do: Throw it away., then: mix}}
=== tools/materials/filler.yml
material: filler
title: Two-part filler
properties: {pot life: about 5 min}
""",
    check=check,
)
