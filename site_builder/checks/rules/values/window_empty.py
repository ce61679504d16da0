from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.crossed import crossed, is_time_between
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for leaf, place, least, most in crossed(analysis):
        if is_time_between(place):
            yield Found(
                leaf.at, f"`{leaf}` leaves nothing: {least} at the least, {most} at the most.",
                "Put right one of the two sides, or the value that the name leads to.", place.owner_id,
            )


RULE = Rule(
    code="window-empty",
    level=Level.ERROR,
    summary="A window that closes before it opens.",
    reason=(
        "One must wait four hours, and after five minutes it is too late. Nobody can keep both."
    ),
    passes="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
materials: filler
steps:
  - id: mix
    do: Mix the filler.
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
  - do: Press it in.
    windows:
      working time: {is: ▸min 4 h; max pot life, after: mix, above: {do: Throw it away., then: mix}}
=== tools/materials/filler.yml
material: filler
title: Two-part filler
properties: {pot life: about 5 min}
""",
    check=check,
)
