from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.things import asks_of
from site_builder.notebook.finding import Level
from site_builder.notebook.model.things import Machine

RULE = Rule(
    code="upkeep-unsaid",
    level=Level.QUESTION,
    summary="A machine that needs nothing.",
    reason="What the machine gets every week from the one who has had it for thirty years, it gets from "
    "nobody after him.",
    passes="""\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
upkeep: {do: Grease the bearings., when: every 6 mo}
""",
    fails="""\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: ▸Belt grinder
""",
    check=asks_of(
        (Machine,), "upkeep",
        question="What does {} need, and how often?",
        fix="Add `upkeep:` with a line for each, and `when`.",
    ),
)
