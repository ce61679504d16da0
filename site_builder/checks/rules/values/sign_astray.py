from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Limit


def check(analysis: Analysis) -> Iterator[Found]:
    for limit, place in analysis.index.of(Limit):
        for key, ends in (("opens", limit.opens), ("closes", limit.closes)):
            if ends and place.key != "wait":
                yield Found(
                    ends[0].at, f"`{key}` belongs to a time that something stands; this is no such time.",
                    f"Put `{key}:` under `wait:` or under a window, or write the sign under `until:` of the step.",
                    place.owner_id,
                )


RULE = Rule(
    code="sign-astray",
    level=Level.ERROR,
    summary="A sign that opens or closes something that is no wait and no window.",
    reason="Only a time of standing has a sign at which it may go on, and one at which it is too late.",
    passes="""\
=== procedures/foot/glue-foot.yml
procedure: glue-foot
title: Glue the felt on
steps:
  - do: Spread the glue.
    wait: {opens: It is no longer wet., closes: It no longer takes a finger print., above: Spread it anew.}
""",
    fails="""\
=== procedures/foot/glue-foot.yml
procedure: glue-foot
title: Glue the felt on
steps:
  - do: Spread the glue.
    limits: {thickness of the glue: {is: max 0.2 mm, opens: ▸It is no longer wet.}}
""",
    check=check,
)
