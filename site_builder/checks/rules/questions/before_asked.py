from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.questions.asking import ask, has_any, named
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.way import NO_PART, lane_of


def check(analysis: Analysis) -> Iterator[Found]:
    if analysis.notebook.unread:  # what comes before may be among what could not be read
        return
    beginnings: dict[str, dict[str, Procedure]] = defaultdict(dict)
    for id_, told in analysis.told.items():
        own = told.procedure
        if not told.shared and not has_any(own, ("after",)):
            beginnings[lane_of(analysis.notebook, own)][id_] = own
    for part, starts in beginnings.items():
        # What leads nowhere beside a row that does lead on is a warning of its own.
        leading = {id_: own for id_, own in starts.items() if analysis.route.after[id_]} or starts
        if part == NO_PART or len(leading) == 1:
            continue
        for id_, own in leading.items():
            other = next(one for one in leading.values() if one is not own)
            yield ask(
                own, id_, f"What comes before {named(own)}? Nothing leads to it yet, nor to {named(other)}.",
                "Add `after:` with a procedure; for the first one, in words what it waits for "
                "(`after: delivery of the metal`).",
            )


RULE = Rule(
    code="before-asked",
    level=Level.QUESTION,
    summary="Several procedures of a part that begin with nothing before them.",
    reason="The way of a part has one beginning. What stands beside it without a word is done too early by "
    "somebody, one day.",
    passes="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {foot: Foot}
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
steps: Pour.
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
after: cast-foot
steps: Sweep it along the belt.
""",
    fails="""\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {foot: Foot}
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: ▸Cast the foot
steps: Pour.
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
steps: Sweep it along the belt.
""",
    check=check,
)
