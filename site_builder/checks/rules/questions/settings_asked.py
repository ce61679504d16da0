from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import ask, at_home, machine_of, named
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for id_, told in analysis.told.items():
        if told.knows("settings") or not at_home(analysis, told):
            continue
        if any(one in analysis.told and analysis.told[one].knows("settings") for one in told.uses):
            continue  # the shared step sets it
        machine = machine_of(analysis, told)
        if machine is not None:
            yield ask(
                told.procedure, id_,
                f"What do you set at “{machine.title}” for {named(told.procedure)}: how fast, how hot, how much?",
                "Add `settings:` to the step, as `belt speed: 15..20 m/s`; `settings: {}` if nothing is set.",
            )


RULE = Rule(
    code="settings-asked",
    level=Level.QUESTION,
    summary="Work at a machine without a single setting.",
    reason="How fast and how hot is what a newcomer cannot see by looking on.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: belt-grinder
settings: {belt speed: 15..20 m/s}
steps: Sweep it along the belt.
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
tools: belt-grinder
steps: Sweep it along the belt.
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
""",
    check=check,
)
