from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.harm import Hazard
from site_builder.notebook.model.limit import Limit


def check(analysis: Analysis) -> Iterator[Found]:
    for spot in analysis.index.plain:
        if spot.key != "source" or spot.text.split()[:1] != ["memory"]:
            continue
        entry = spot.place.entry
        if isinstance(entry, (Limit, Hazard)):
            what = entry.hazard if isinstance(entry, Hazard) else spot.place.name or "This value"
            yield Found(
                spot.text.at, f"“{what}” rests on memory alone.",
                "Measure it, look it up, or ask who told it, and write that as the `source`.",
                spot.place.owner_id,
            )


RULE = Rule(
    code="source-memory",
    level=Level.WARNING,
    summary="A limit or a hazard known from memory alone.",
    reason=(
        "Work is accepted or thrown away by a limit, and people are warned by a hazard: somebody should have "
        "looked it up."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits:
      flatness: {is: max 0.1 mm, source: measured}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    limits:
      flatness: {is: max 0.1 mm, source: ▸memory}
""",
    check=check,
)
