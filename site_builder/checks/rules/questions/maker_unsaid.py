from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.things import asks_of
from site_builder.notebook.finding import Level
from site_builder.notebook.model.things import Gauge, Machine

RULE = Rule(
    code="maker-unsaid",
    level=Level.QUESTION,
    summary="A machine or a gauge without its maker.",
    reason="A spare, an instruction book and the figures on the plate are found by the name of the maker and"
    " the year.",
    passes="""\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
maker: Haldin and Sons, type 75, 1979
""",
    fails="""\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: ▸Belt grinder
""",
    check=asks_of(
        (Machine, Gauge), "maker",
        question="Who built {}, which model is it, and from what year?",
        fix="Add `maker:`, as `Haldin and Sons, type 75, 1979`.",
    ),
)
