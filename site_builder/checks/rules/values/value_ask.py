from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.wording import SIDES, question, question_for_key
from site_builder.notebook.finding import At, Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit, Window
from site_builder.quantity import Ask, Limits, kind_of


def check(analysis: Analysis) -> Iterator[Found]:
    things = analysis.notebook.things
    for leaf, place, key in analysis.index.values:
        what = leaf.value.what
        if type(what) is Ask:
            if not _is_disputed(place):
                yield _found(leaf.at, question(place, key, things=things), place)
        elif type(what) is Limits:
            for clause in what.clauses:
                if type(clause.what) is Ask:
                    text = question(place, key, kind_of(leaf.value), SIDES.get(clause.lead, ""), things=things)
                    yield _found(leaf.at, text, place)
    for kind in (Limit, Window):
        for limit, place in analysis.index.of(kind):
            if limit.is_ is None and not (limit.said or limit.sum or limit.opens or limit.closes):
                yield _found(limit.at, question(place, place.key, things=things), place)
    for places in analysis.index.places.values():
        for place in places:
            if place.entry.asked:
                for asked in place.entry.asked:
                    yield _found(asked.at, question_for_key(place, asked, things), place)


def _is_disputed(place: Place) -> bool:
    """Whether several have answered already; which of them is right, another rule asks."""
    return isinstance(place.entry, Limit) and len(place.entry.said) > 1


def _found(at: At, text: str, place: Place) -> Found:
    return Found(at, text, "Write the answer here; it is asked until then.", place.owner_id)


RULE = Rule(
    code="value-ask",
    level=Level.QUESTION,
    summary="A value, or a key, that was written down as not known.",
    reason=(
        "What the master has not told yet stands here, so that it is asked while there is still somebody "
        "to ask."
    ),
    passes="""\
=== tools/materials/filler.yml
material: filler
title: Two-part filler
properties: {pot life: about 5 min}
""",
    fails="""\
=== tools/materials/filler.yml
material: filler
title: Two-part filler
properties: {pot life: ▸ask}
▸supplier: ask
""",
    check=check,
)
