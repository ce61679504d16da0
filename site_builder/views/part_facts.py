"""The facts of a part: metal, sizes, how many, how long, how many reach the end."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from site_builder.notebook.model.shop import Part
from site_builder.notebook.way import PieceAccount, Ways, with_parts
from site_builder.views.counts import span
from site_builder.views.fact import Fact, fact, facts_of
from site_builder.views.prose import NO_WORDS, Prose, joined, listed, prose, say
from site_builder.views.scope import Scope
from site_builder.views.value import amount

NAMED = 3
"""As many procedures are named one by one; of more only the number is told."""


def part_facts(scope: Scope, part: Part, told: PieceAccount | None, all_ways: Ways) -> tuple[Fact, ...]:
    """In the order in which a newcomer asks."""
    return tuple(_facts(scope, part, told, all_ways))


def _facts(scope: Scope, part: Part, told: PieceAccount | None, all_ways: Ways) -> Iterator[Fact]:
    if part.for_:
        yield fact("Made", scope.only(part).words)
    if part.material:
        yield fact("Made of", joined((scope.view.link("material", str(m)) for m in part.material), ", "))
    if part.supplier:
        yield fact("Bought from", scope.words(part.supplier))
    if part.lead_time is not None:
        yield fact("From ordering until it is here", amount(scope, part.lead_time))
    if part.stock is not None:
        yield fact("There, and not promised", amount(scope, part.stock))
    if part.chosen:
        yield fact("Always", joined((say("{} {}", name, scope.words(v)) for name, v in part.chosen.items()), ", "))
    for whole, entry in scope.nb.parts.items():
        count = next((number for one, number in entry.of.items() if one == scope.id), None)
        if count is not None:
            title = scope.view.title("part", whole).partition(",")[0]
            yield fact(f"In one {title[:1].lower()}{title[1:]}", amount(scope, count))
    yield from facts_of(scope, part.sizes)
    way = all_ways.get(scope.id, ())
    if told is not None and part.of:
        yield fact("Time of hands to put together", _time(scope, told, way))
        yield fact("With all its parts", _whole(scope, all_ways))
        yield fact("Of 100 put together", _reach(scope, told, way))
    elif told is not None:
        yield fact("Time of hands in one", _time(scope, told, way))
        yield fact("Of 100 begun", _reach(scope, told, way))


def _whole(scope: Scope, all_ways: Ways) -> str:
    least, most, all_told = with_parts(scope.nb, all_ways, scope.id)
    more = "" if all_told else ", without what is not yet told"
    return f"{_about(least, most)} of hands in one{more}"


def _about(least: Fraction, most: Fraction) -> str:
    low, high = span(least), span(most)
    if low == high:
        return f"about {low}"
    number, blank, unit = low.partition("\u00a0")
    return f"{number} to {high}" if high.endswith(blank + unit) and number.isdigit() else f"{low} to {high}"


def _time(scope: Scope, told: PieceAccount, way: Sequence[str]) -> Prose:
    if len(told.untimed) == len(way):
        return prose("not yet told")
    return say("{}, setting up and waiting not counted{}", _about(told.least, told.most), _without(scope, told.untimed))


def _reach(scope: Scope, told: PieceAccount, way: Sequence[str]) -> Prose:
    if len(told.uncounted) == len(way):
        return prose("not yet told")
    count = "all" if told.of_hundred == 100 else f"about {round(told.of_hundred)}"
    return say("{} come to the end of this way, by the losses written{}", count, _without(scope, told.uncounted))


def _without(scope: Scope, untold: Sequence[str]) -> Prose:
    """Which procedures are not in the sum."""
    if not untold:
        return NO_WORDS
    if len(untold) > NAMED:
        return prose(f". {len(untold)} procedures do not tell and are left out")
    names = listed(scope.view.link("procedure", one) for one in untold)
    return say(". {} {} not tell and {} left out", names, *(("does", "is") if len(untold) == 1 else ("do", "are")))
