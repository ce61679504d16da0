from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.judging import ROUTES
from site_builder.notebook.nearest import did_you_mean, nearest
from site_builder.notebook.references import all_steps

_MEANT = {
    "back": "again", "repeat": "again", "redo": "again", "retry": "again", "continue": "next", "go on": "next",
    "waste": "scrap", "bin": "scrap", "discard": "scrap", "hold": "aside", "halt": "stop", "nothing": "none",
}
"""Other words for the ways on."""


def check(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for link in analysis.references.links:
        if link.kinds == ("route",) and link.target is None and link.text.split("/")[0] not in nb.unread:
            own = link.place.procedure
            steps = [str(s.id) for s in all_steps(own) if s.id is not None] if own is not None else []
            near = _MEANT.get(link.text.lower()) or nearest(link.text, [*steps, *ROUTES, *nb.procedures])
            yield Found(
                link.at, f"Nothing is called `{link.text}` that one could go on to.",
                f"{did_you_mean(near)}Write a step of this procedure, a procedure, or one of {', '.join(ROUTES)}.",
                link.place.owner_id,
            )


RULE = Rule(
    code="route-none",
    level=Level.ERROR,
    summary="A way on or back that leads to nothing.",
    reason="Whoever stands at the bench with a failed piece must be led somewhere that exists.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - id: sweep
    do: Sweep it along the belt.
  - do: Try it on the plate.
    troubles: [{sign: It rocks., do: Take one more pass., then: sweep}]
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - id: sweep
    do: Sweep it along the belt.
  - do: Try it on the plate.
    troubles: [{sign: It rocks., do: Take one more pass., then: ▸sweeps}]
""",
    check=check,
)
