"""What a part is put together from, what it goes into, and the variants it comes in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from site_builder.handbook.pages.in_words import capital, joined_sentences, listed, moment
from site_builder.handbook.pages.sayings import namer, valued
from site_builder.handbook.pages.work_graph import Ways
from site_builder.handbook.pen import Pen
from site_builder.handbook.text import typeset
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.limit import By
from site_builder.notebook.model.shop import Part


@dataclass(frozen=True, slots=True)
class Joins:
    """``of``: what it is put together from; ``into``: what it goes into; ``at``: the work that joins it."""

    of: tuple[Markup, ...]
    into: tuple[Markup, ...]
    at: tuple[Markup, ...]

    def __bool__(self) -> bool:
        return bool(self.of or self.into or self.at)


def joins(pen: Pen, id_: str, part: Part, all_ways: Ways) -> Joins:
    """How a part meets others."""
    nb = pen.book.notebook
    of = tuple(_counted(pen, str(one), valued(pen, count)) for one, count in part.of.items())
    into = tuple(
        pen.link("part", whole) for whole, entry in nb.parts.items() if any(one == id_ for one in entry.of)
    )
    return Joins(of, into, tuple(_work(pen, one) for one in joining(pen, id_, all_ways.get(id_, ()))))


def joining(pen: Pen, id_: str, way: Sequence[str]) -> list[str]:
    """The work that joins a part with others: what works on several; else what follows its own way."""
    found = [one for one in _joining_by_part(pen).get(id_, ()) if one not in way]
    if found or not way:
        return found
    return [one for one in pen.book.survey.route.after[way[-1]] if one not in way]


def _joining_by_part(pen: Pen) -> dict[str, list[str]]:
    """Of each part the procedures that work on it together with others; worked out once a book."""
    cached: dict[str, list[str]] | None = pen.book.__dict__.get("_joining_by_part")
    if cached is None:
        cached = {}
        nb = pen.book.notebook
        for id_, procedure in nb.procedures.items():
            parts = nb.parts_of(procedure)
            for part in parts if len(parts) > 1 else ():
                cached.setdefault(part, []).append(id_)
        pen.book.__dict__["_joining_by_part"] = cached
    return cached


def _counted(pen: Pen, id_: str, count: Markup) -> Markup:
    return Markup("{} × {}").format(count, pen.link("part", id_))


def _work(pen: Pen, id_: str) -> Markup:
    """A joining procedure with its reason."""
    reasons = pen.book.notebook.procedures[id_].because
    why = Markup(" {}").format(pen.words(reasons[0])) if reasons else ""
    return Markup("{}.{}").format(pen.link("procedure", id_), why)


def variants(pen: Pen, id_: str, part: Part, way: Sequence[str]) -> list[tuple[Markup, Markup]]:
    """(name and values, when it is decided and why) of each dimension that bears on this part."""
    shop = pen.book.notebook.shop
    if shop is None:
        return []
    touched = set(_dimensions(pen, id_, part, way))
    out = []
    for name, variant in shop.variants.items():
        if name in touched:
            decided = [Markup("Decided at {}").format(moment(leaf.value, namer(pen))) for leaf in variant.decided]
            values = listed((typeset(str(v)) for v in variant.values), "or")
            out.append((Markup("<b>{}</b>: {}.").format(capital(typeset(str(name))), values),
                        joined_sentences([*(pen.words(reason) for reason in variant.because), *decided])))
    return out


def _dimensions(pen: Pen, id_: str, part: Part, way: Sequence[str]) -> Iterator[str]:
    """Dimensions by which a size of the part, or anything on its way, differs."""
    of_owner = _by_owner(pen)
    for one in way:
        yield from of_owner.get(one, ())
    for limits in part.sizes.values():
        for limit in limits:
            yield from (str(by.name) for by in limit.by)
            yield from _for(limit)
    yield from (str(name) for name in part.chosen)
    yield from of_owner.get(id_, ())


def _by_owner(pen: Pen) -> dict[str, set[str]]:
    """Of each procedure the dimensions it names; worked out once a book."""
    cached: dict[str, set[str]] | None = pen.book.__dict__.get("_dimensions_by_owner")
    if cached is None:
        cached = {}
        for places in pen.book.survey.index.places.values():
            for place in places:
                found = cached.setdefault(place.owner_id, set())
                if isinstance(place.entry, By):
                    found.add(str(place.entry.name))
                found.update(_for(place.entry))
        pen.book.__dict__["_dimensions_by_owner"] = cached
    return cached


def _for(entry: Entry) -> Iterator[str]:
    for choice in entry.for_:
        yield from map(str, choice)
