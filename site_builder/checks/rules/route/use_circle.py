from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.circles import circles
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.references import Link


def check(analysis: Analysis) -> Iterator[Found]:
    procedures = analysis.notebook.procedures
    uses: dict[str, list[tuple[str, Link]]] = defaultdict(list)
    for link in analysis.references.links:
        if link.key == "use" and link.target is not None and link.place.procedure is not None:
            uses[link.place.owner_id].append((link.target.id, link))
    for circle in circles(uses):
        titles = [f"“{procedures[link.place.owner_id].title}”" for link in (*circle, circle[0])]
        last = circle[-1]
        yield Found(
            last.at, f"These go round in a circle: {', which uses '.join(titles)}.",
            "Take the steps that both need into a procedure of their own, and let both `use` that one.",
            last.place.owner_id,
        )


RULE = Rule(
    code="use-circle",
    level=Level.ERROR,
    summary="Procedures that contain each other.",
    reason="A shared procedure stands in the place of a step. If it holds the very page that holds it, the "
    "page would have no end.",
    passes="""\
=== procedures/shared/dress-the-belt.yml
procedure: dress-the-belt
title: Dress the belt
steps: Hold the rubber block across it.
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - use: dress-the-belt
  - do: Sweep it along the belt.
""",
    fails="""\
=== procedures/shared/dress-the-belt.yml
procedure: dress-the-belt
title: Dress the belt
steps:
  - do: Hold the rubber block across it.
  - use: ▸grind-foot
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - use: dress-the-belt
  - do: Sweep it along the belt.
""",
    check=check,
)
