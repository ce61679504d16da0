from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.route.steps import number_of
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.judging import Loop


def check(analysis: Analysis) -> Iterator[Found]:
    for link in analysis.references.links:
        own = link.place.procedure
        if link.key != "from_" or not isinstance(link.place.entry, Loop) or own is None or link.target is None:
            continue
        here, there = number_of(own, link.place.step), number_of(own, link.target.step)
        if link.target.id == link.place.owner_id and here is not None and there is not None and there > here:
            yield Found(
                link.at, f"One goes back to repeat, but `{link.text}` stands below this step.",
                "Name the step from which the round begins: this one, or one above it.", link.place.owner_id,
            )


RULE = Rule(
    code="repeat-ahead",
    level=Level.ERROR,
    summary="A loop that begins with a step further down.",
    reason="Nobody can go back to what has not been done yet; what lies between would be left out.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - {id: sweep, do: Sweep it along the belt.}
  - {id: try, do: Try it on the plate., repeat: {from: sweep, times: max 3}}
  - {id: rack, do: Rack it.}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - {id: sweep, do: Sweep it along the belt.}
  - {id: try, do: Try it on the plate., repeat: {from: ▸rack, times: max 3}}
  - {id: rack, do: Rack it.}
""",
    check=check,
)
