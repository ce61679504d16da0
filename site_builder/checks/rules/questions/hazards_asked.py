from __future__ import annotations

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import asks_for, at_home
from site_builder.notebook.finding import Level
from site_builder.notebook.told import Told


def _harmless(analysis: Analysis, told: Told) -> bool:
    """Done here, and no tool, no material, no group of them and no shared step knows of a hazard."""
    notebook = analysis.notebook
    if not at_home(analysis, told) or notebook.unread:
        return False
    if any(one in analysis.told and analysis.told[one].knows("hazards") for one in told.uses):
        return False
    return not any(
        notebook.things[one].hazards or "hazards" in notebook.things[one].asked
        for id_ in told.things for one in (id_, *notebook.groups.get(id_, ())) if one in notebook.things
    )


RULE = Rule(
    code="hazards-asked",
    level=Level.QUESTION,
    summary="Work in which nothing can hurt, as far as the page knows.",
    reason="Most work can hurt. A page without a hazard is more often a page nobody has thought about than "
    "safe work.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: belt-grinder
steps: Sweep it along the belt.
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
hazards: {hazard: drawn in, word: warning, avoid: Keep the guard closed.}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
steps: Sweep it along the belt.
""",
    check=asks_for(
        "hazards",
        question="What can hurt you: {}?",
        fix="Add `hazards:` to the step, the tool or the material it comes from; `hazards: []` if nothing can.",
        worth=_harmless,
    ),
)
