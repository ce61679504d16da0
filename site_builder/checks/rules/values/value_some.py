from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.wording import SIDES, question
from site_builder.notebook.finding import Found, Level
from site_builder.quantity import Limits, Some


def check(analysis: Analysis) -> Iterator[Found]:
    things = analysis.notebook.things
    for leaf, place, key in analysis.index.values:
        if type(leaf.value.what) is Some:
            unit = leaf.value.what.unit
            text = question(place, key, unit.kind, things=things).removesuffix("?")
            yield Found(leaf.at, f"{text}, in {unit.many}?", _FIX, place.owner_id)
        elif type(leaf.value.what) is Limits:
            for clause in leaf.value.what.clauses:
                if type(clause.what) is Some:
                    side = SIDES.get(clause.lead, "")
                    text = question(place, key, clause.what.unit.kind, side, things=things).removesuffix("?")
                    yield Found(leaf.at, f"{text}, in {clause.what.unit.many}?", _FIX, place.owner_id)


_FIX = "Write the figure in place of `some`."


RULE = Rule(
    code="value-some",
    level=Level.QUESTION,
    summary="A value of which only the kind is known.",
    reason=(
        "“Some minutes” is enough for whoever has done it a thousand times, and nothing for the one who "
        "does it first."
    ),
    passes="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps: Press the filler in.
wait: min 40 min
""",
    fails="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps: Press the filler in.
wait: ▸some min
""",
    check=check,
)
