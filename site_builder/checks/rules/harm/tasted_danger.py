from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.gather import hazards_of
from site_builder.notebook.model.harm import Hazard
from site_builder.notebook.model.judging import Check


def check(analysis: Analysis) -> Iterator[Found]:
    """Common practice in every laboratory: nothing is tasted where something dangerous is handled."""
    for feel, place in analysis.index.of(Check):
        own = place.procedure
        if feel.sense != "taste" or own is None or feel.note is not None or (
                place.step is not None and place.step.note is not None):
            continue
        grave = [one.item for one in hazards_of(analysis.notebook, own)
                 if isinstance(one.item, Hazard) and one.item.word in ("danger", "warning")]
        if grave:
            yield Found(
                feel.at,
                f"It is tasted where “{grave[0].hazard}” is met. Is there another way to tell, or why is it safe?",
                "Add `note:` with the way that needs no tongue, or with what makes it safe.", place.owner_id,
            )


RULE = Rule(
    code="tasted-danger",
    level=Level.QUESTION,
    summary="Something is tasted at work that can kill or maim.",
    reason="What the old hands did with the tongue a strip of paper or a drop of indicator often tells as well. "
    "Nothing is tasted where something dangerous is handled; that is common practice.",
    passes="""\
=== procedures/soap/boil.yml
procedure: boil
title: Boil the soap
steps:
  - do: Try the cooled soap.
    note: A drop of indicator tells the same without the tongue.
    hazards: {hazard: lye, word: danger, harm: It blinds., avoid: Goggles on.}
    feel: {sense: taste, good: A faint bite stays., bad: There is no bite.}
""",
    fails="""\
=== procedures/soap/boil.yml
procedure: boil
title: Boil the soap
steps:
  - do: Try the cooled soap.
    hazards: {hazard: lye, word: danger, harm: It blinds., avoid: Goggles on.}
    feel: ▸{sense: taste, good: A faint bite stays., bad: There is no bite.}
""",
    check=check,
)
