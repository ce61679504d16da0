"""What a part is put together from, what it goes into, and the variants it comes in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.shop import Part
from site_builder.notebook.way import Ways
from site_builder.views import rhythm
from site_builder.views.prose import Prose, capital, joined, listed, say, sentence, sentences, toned
from site_builder.views.scope import Scope
from site_builder.views.typeset import typeset
from site_builder.views.value import amount


@dataclass(frozen=True, slots=True)
class Joins:
    """``of``: what it is put together from; ``into``: what it goes into; ``at``: the work that joins it."""

    of: tuple[Prose, ...]
    into: tuple[Prose, ...]
    at: tuple[Prose, ...]

    def __bool__(self) -> bool:
        return bool(self.of or self.into or self.at)


def joins(scope: Scope, part: Part, all_ways: Ways) -> Joins:
    """How a part meets others."""
    nb = scope.nb
    link = scope.view.link
    of = tuple(say("{} × {}", amount(scope, count), link("part", str(one))) for one, count in part.of.items())
    into = tuple(link("part", whole) for whole, entry in nb.parts.items() if any(o == scope.id for o in entry.of))
    return Joins(of, into, tuple(_work(scope, one) for one in joining(scope, all_ways.get(scope.id, ()))))


def joining(scope: Scope, way: Sequence[str]) -> list[str]:
    """The work that joins a part with others: what works on several; else what follows its own way."""
    found = [one for one in scope.view.worked_on_together.get(scope.id, ()) if one not in way]
    if found or not way:
        return found
    return [one for one in scope.view.analysis.route.after[way[-1]] if one not in way]


def _work(scope: Scope, id_: str) -> Prose:
    """A joining procedure with its reason."""
    reasons = scope.nb.procedures[id_].because
    return joined((sentence(scope.view.link("procedure", id_)), *map(scope.words, reasons[:1])))


def variants(scope: Scope, part: Part, way: Sequence[str]) -> list[tuple[Prose, Prose]]:
    """(name and values, when it is decided and why) of each dimension that bears on this part."""
    shop = scope.nb.shop
    if shop is None:
        return []
    touched = set(_dimensions(scope, part, way))
    out = []
    for name, variant in shop.variants.items():
        if name in touched:
            decided = [say("Decided {}", rhythm.at_moment(scope.moment(leaf))) for leaf in variant.decided]
            values = listed((typeset(str(v)) for v in variant.values), "or")
            out.append((say("{}: {}.", toned("lead", capital(typeset(str(name)))), values),
                        sentences([*(scope.words(reason) for reason in variant.because), *decided,
                                   *scope.tail(variant, told=("because", "decided"))])))
    return out


def _dimensions(scope: Scope, part: Part, way: Sequence[str]) -> Iterator[str]:
    """Dimensions by which a size of the part, or anything on its way, differs."""
    of_owner = scope.view.dimensions_named
    for one in way:
        yield from of_owner.get(one, ())
    for limits in part.sizes.values():
        for limit in limits:
            yield from (str(by.name) for by in limit.by)
            yield from _for(limit)
    yield from (str(name) for name in part.chosen)
    yield from of_owner.get(scope.id, ())


def _for(entry: Entry) -> Iterator[str]:
    for choice in entry.for_:
        yield from map(str, choice)
