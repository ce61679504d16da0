from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import ask, named
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for id_, told in analysis.told.items():
        followers = analysis.route.after[id_]
        if not followers or told.knows("wait", "windows"):
            continue
        if any(analysis.told[one].knows("windows") for one in followers):
            continue
        following = analysis.notebook.procedures[followers[0]]
        yield ask(
            told.procedure, id_,
            f"How long may it stand between {named(told.procedure)} and {named(following)}, and how long must it?",
            "Add `wait:` to the last step, as `min 4 h; max 2 d`, or a window where both ends matter.",
        )


RULE = Rule(
    code="stand-asked",
    level=Level.QUESTION,
    summary="Work that goes on to the next without a word on how long it may stand.",
    reason="Metal stains, paint closes, filler stiffens. Who does not know how long a thing may stand finds "
    "out on a Monday.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
wait: max 2 d
steps: Sweep it along the belt.
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
after: grind-foot
steps: Spray it.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
steps: Sweep it along the belt.
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
after: grind-foot
steps: Spray it.
""",
    check=check,
)
