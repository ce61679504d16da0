from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for fault in analysis.faults:
        yield Found(
            fault.at, f"Nothing can be reckoned with this: {fault.message}.",
            "Put right the figure or its unit; where it is right, another figure beside it is wrong.",
        )


RULE = Rule(
    code="figure-impossible",
    level=Level.ERROR,
    summary="A figure that nothing in the shop can have.",
    reason=(
        "Numbers have consequences: a negative weight or a loss of more than all there is would spoil every figure "
        "that rests on it."
    ),
    passes="""\
=== procedures/foot/sand-foot.yml
procedure: sand-foot
title: Sand the foot
steps:
  - do: Sand it.
    settings: {grit: P180}
""",
    fails="""\
=== procedures/foot/sand-foot.yml
procedure: sand-foot
title: Sand the foot
steps:
  - do: Sand it.
    settings: {grit: ▸P185}
""",
    check=check,
)
