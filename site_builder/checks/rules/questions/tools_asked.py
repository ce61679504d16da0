from __future__ import annotations

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import asks_for, at_home
from site_builder.notebook.finding import Level
from site_builder.notebook.told import Told


def _bare_handed(analysis: Analysis, told: Told) -> bool:
    """In the shop, and with nothing that a limit, a check or a shared step names."""
    return at_home(analysis, told) and analysis.notebook.tools.keys().isdisjoint(told.things)


RULE = Rule(
    code="tools-asked",
    level=Level.QUESTION,
    summary="A procedure that names no tools.",
    reason="The tools bring their hazards, their protection and their limits along. Where none is named the "
    "page knows of none of these.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: belt-grinder
steps: Sweep it along the belt.
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
steps: Sweep it along the belt.
""",
    check=asks_for(
        "tools",
        question="With what is it done: {}?",
        fix="Add `tools:`; `tools: []` where bare hands do it.",
        worth=_bare_handed,
    ),
)
