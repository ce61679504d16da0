"""What a part is put together from, what it goes into, and the variants it comes in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from site_builder.handbook.filled import filled
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.in_words import capital, joined_sentences, listed
from site_builder.handbook.pages.sayings import namer, valued
from site_builder.handbook.pages.work_graph import Ways
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.limit import By
from site_builder.notebook.model.shop import Part
from site_builder.views.rhythm import moment
from site_builder.views.typeset import typeset


@dataclass(frozen=True, slots=True)
class Joins:
    """``of``: what it is put together from; ``into``: what it goes into; ``at``: the work that joins it."""

    of: tuple[Markup, ...]
    into: tuple[Markup, ...]
    at: tuple[Markup, ...]

    def __bool__(self) -> bool:
        return bool(self.of or self.into or self.at)


def joins(context: PageContext, id_: str, part: Part, all_ways: Ways) -> Joins:
    """How a part meets others."""
    nb = context.book.notebook
    of = tuple(_counted(context, str(one), valued(context, count)) for one, count in part.of.items())
    into = tuple(
        context.link("part", whole) for whole, entry in nb.parts.items() if any(one == id_ for one in entry.of)
    )
    return Joins(of, into, tuple(_work(context, one) for one in joining(context, id_, all_ways.get(id_, ()))))


def joining(context: PageContext, id_: str, way: Sequence[str]) -> list[str]:
    """The work that joins a part with others: what works on several; else what follows its own way."""
    found = [one for one in _joining_by_part(context).get(id_, ()) if one not in way]
    if found or not way:
        return found
    return [one for one in context.book.analysis.route.after[way[-1]] if one not in way]


def _joining_by_part(context: PageContext) -> dict[str, list[str]]:
    """Of each part the procedures that work on it together with others; worked out once a book."""
    cached: dict[str, list[str]] | None = context.book.__dict__.get("_joining_by_part")
    if cached is None:
        cached = {}
        nb = context.book.notebook
        for id_, procedure in nb.procedures.items():
            parts = nb.parts_of(procedure)
            for part in parts if len(parts) > 1 else ():
                cached.setdefault(part, []).append(id_)
        context.book.__dict__["_joining_by_part"] = cached
    return cached


def _counted(context: PageContext, id_: str, count: Markup) -> Markup:
    return Markup("{} × {}").format(count, context.link("part", id_))


def _work(context: PageContext, id_: str) -> Markup:
    """A joining procedure with its reason."""
    reasons = context.book.notebook.procedures[id_].because
    why = Markup(" {}").format(context.words(reasons[0])) if reasons else ""
    return Markup("{}.{}").format(context.link("procedure", id_), why)


def variants(context: PageContext, id_: str, part: Part, way: Sequence[str]) -> list[tuple[Markup, Markup]]:
    """(name and values, when it is decided and why) of each dimension that bears on this part."""
    shop = context.book.notebook.shop
    if shop is None:
        return []
    touched = set(_dimensions(context, id_, part, way))
    out = []
    for name, variant in shop.variants.items():
        if name in touched:
            decided = [filled("Decided at {}", context.said(moment(leaf.value, namer(context))))
                       for leaf in variant.decided]
            values = listed((typeset(str(v)) for v in variant.values), "or")
            out.append((Markup("<b>{}</b>: {}.").format(capital(typeset(str(name))), values),
                        joined_sentences([*(context.words(reason) for reason in variant.because), *decided])))
    return out


def _dimensions(context: PageContext, id_: str, part: Part, way: Sequence[str]) -> Iterator[str]:
    """Dimensions by which a size of the part, or anything on its way, differs."""
    of_owner = _by_owner(context)
    for one in way:
        yield from of_owner.get(one, ())
    for limits in part.sizes.values():
        for limit in limits:
            yield from (str(by.name) for by in limit.by)
            yield from _for(limit)
    yield from (str(name) for name in part.chosen)
    yield from of_owner.get(id_, ())


def _by_owner(context: PageContext) -> dict[str, set[str]]:
    """Of each procedure the dimensions it names; worked out once a book."""
    cached: dict[str, set[str]] | None = context.book.__dict__.get("_dimensions_by_owner")
    if cached is None:
        cached = {}
        for places in context.book.analysis.index.places.values():
            for place in places:
                found = cached.setdefault(place.owner_id, set())
                if isinstance(place.entry, By):
                    found.add(str(place.entry.name))
                found.update(_for(place.entry))
        context.book.__dict__["_dimensions_by_owner"] = cached
    return cached


def _for(entry: Entry) -> Iterator[str]:
    for choice in entry.for_:
        yield from map(str, choice)
