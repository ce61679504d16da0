from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.possible.held_to import Held, held, impossible
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    told = set()
    for one in held(analysis):
        if impossible(one):
            told.add(one.written.at)
            yield Found(one.written.at, f"`{one.written}` cannot be: `{one.name}` {one.range.words}.", _mend(one),
                        one.owner)
    for fault in analysis.faults:
        if fault.at not in told:
            yield Found(
                fault.at, f"Nothing can be reckoned with this: {fault.message}.",
                "Put right the figure or its unit; where it is right, another figure beside it is wrong.",
            )


def _mend(one: Held) -> str:
    written = str(one.written)
    if one.range.least_only and written.startswith("max "):
        return f"Write `min {written.removeprefix('max ')}`."
    if one.range.open_low and one.figures[-1] == 0:
        return "Write how much it is, or `ask`; where there is none, leave the line out."
    return "Put right the figure or its unit."


RULE = Rule(
    code="figure-impossible",
    level=Level.ERROR,
    summary="A figure that nothing in the shop can have.",
    reason=(
        "Numbers have consequences: a negative weight or a loss of more than all there is would spoil every figure "
        "that rests on it. What each key and each name that is known can be stands in one table."
    ),
    passes="""\
=== procedures/foot/sand-foot.yml
procedure: sand-foot
title: Sand the foot
steps:
  - do: Sand it.
    settings: {grit: P180}
yield: {scrap: 4 %}
""",
    fails="""\
=== procedures/foot/sand-foot.yml
procedure: sand-foot
title: Sand the foot
steps:
  - do: Sand it.
    settings: {grit: ▸P185}
yield: {scrap: ▸104 %}
""",
    check=check,
)
