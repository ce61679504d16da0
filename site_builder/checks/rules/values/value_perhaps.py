from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.wording import name_of, question, thing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Limit
from site_builder.quantity import Limits, Value, as_said


def check(analysis: Analysis) -> Iterator[Found]:
    for leaf, place, key in analysis.index.values:
        if leaf.value.perhaps or (isinstance(place.entry, Limit) and place.entry.doubt):
            told = as_said(_sure(leaf.value))
            doubt = f" {place.entry.doubt}" if isinstance(place.entry, Limit) and place.entry.doubt else ""
            # a time or a share has no name of the shop's own, and its key is no word for the master
            asked = f"Does {told} hold for {thing(place, key)}?" if name_of(place) else (
                f"{question(place, key, things=analysis.notebook.things)} Is it {told}?")
            yield Found(
                leaf.at, f"{asked}{doubt}",
                "Take `perhaps` or `doubt` away once it is sure, or write what is right.", place.owner_id,
            )


def _sure(value: Value) -> Value:
    what = value.what
    if isinstance(what, Limits):
        what = Limits(tuple(replace(clause, perhaps=False) for clause in what.clauses))
    return Value(what)


RULE = Rule(
    code="value-perhaps",
    level=Level.QUESTION,
    summary="A value that is doubted.",
    reason=(
        "A guess that nobody marks is believed after a year. A guess that is marked can be asked about."
    ),
    passes="""\
=== tools/materials/filler.yml
material: filler
title: Two-part filler
properties: {shelf life: 12 mo}
""",
    fails="""\
=== tools/materials/filler.yml
material: filler
title: Two-part filler
properties: {shelf life: ▸perhaps 12 mo}
""",
    check=check,
)
