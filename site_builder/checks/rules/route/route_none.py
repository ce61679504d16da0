from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.judging import ROUTES
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.nearest import did_you_mean, nearest
from site_builder.notebook.references import all_steps
from site_builder.notebook.vocabulary import Vocabulary

_MEANT = {
    "back": "again", "repeat": "again", "redo": "again", "retry": "again", "continue": "next", "go on": "next",
    "waste": "scrap", "bin": "scrap", "discard": "scrap", "hold": "aside", "halt": "stop", "nothing": "none",
}
"""Other words for the ways on."""


def check(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for link in analysis.references.links:
        if link.kinds == ("route",) and link.target is None and link.text.split("/")[0] not in nb.unread:
            near = _MEANT.get(link.text.lower()) or _near(analysis, link.place.procedure, link.text)
            yield Found(
                link.at, f"Nothing is called `{link.text}` that one could go on to.",
                f"{did_you_mean(near)}Write a step of this procedure, a procedure, or one of {', '.join(ROUTES)}.",
                link.place.owner_id,
            )


def _near(analysis: Analysis, own: Procedure | None, text: str) -> str:
    """Of the steps here, the ways on and the procedures the one that was meant."""
    steps = all_steps(own) if own is not None else ()
    here = analysis.once(("ways on", id(own)), lambda: Vocabulary(
        (*(str(step.id) for step in steps if step.id is not None), *ROUTES))).nearest(text)
    there = analysis.once("words of procedures", lambda: Vocabulary(analysis.notebook.procedures)).nearest(text)
    return nearest(text, (here, there)) if here and there else here or there


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
