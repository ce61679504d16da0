from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.things import Tooling
from site_builder.quantity import kind_of

_TURNING = ("speed", "rotation speed")


def check(analysis: Analysis) -> Iterator[Found]:
    tooling = {
        id_: tool for id_, tool in analysis.notebook.tools.items()
        if isinstance(tool, Tooling) and "properties" not in tool.asked
        and not any(name.endswith("speed") for name in tool.properties)
    }
    if not tooling:
        return
    turning = {
        place.owner_id for leaf, place, _ in analysis.index.values
        if place.procedure is not None and place.key == "settings" and kind_of(leaf.value) in _TURNING
    }
    used = {thing for id_ in turning for thing in analysis.told[id_].things}
    for id_, tool in tooling.items():
        if id_ in used:
            yield Found(
                tool.title.at, f"How fast may “{tool.title}” go at most?",
                "Add `properties:` with `rated speed`, as `max 32 m/s` or `max 2900 rev/min`.", id_,
            )


RULE = Rule(
    code="rated-unsaid",
    level=Level.QUESTION,
    summary="Tooling on a turning machine that does not say how fast it may go.",
    reason="A wheel that is driven too fast bursts. What it bears stands on it only until the print has worn"
    " off.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: belt-p80
settings: {belt speed: 15..20 m/s}
steps: Sweep it along the belt.
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: Belt, P80
properties: {rated speed: max 32 m/s}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: belt-p80
settings: {belt speed: 15..20 m/s}
steps: Sweep it along the belt.
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: ▸Belt, P80
""",
    check=check,
)
