"""The page of a procedure: the heart of the handbook."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from markupsafe import Markup

from site_builder.handbook.book import WORK, Book, Sheet
from site_builder.handbook.filled import filled
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.press import pressed
from site_builder.handbook.pages.procedure_after import came_about, in_the_book, use_places, used_by
from site_builder.handbook.pages.procedure_docket import Batch, docket, first_batch
from site_builder.handbook.pages.procedure_harm import stay_whole
from site_builder.handbook.pages.procedure_reading import choices
from site_builder.handbook.pages.procedure_ready import lay_ready
from site_builder.handbook.pages.procedure_scribe import Common, Scribe, common
from site_builder.handbook.pages.procedure_steps import asked, finder_parts, judged, steps, whole, written
from site_builder.handbook.pages.procedure_troubles import goes_wrong
from site_builder.notebook.gather import used_procedures
from site_builder.notebook.model.procedure import Procedure


def procedure_sheets(book: Book) -> Iterator[Sheet]:
    """A page for every procedure; one of the last build is kept if nothing changed of which it tells (`page_keys`)."""
    shared = common(book)
    batch = first_batch(book)
    for id_, own in book.notebook.procedures.items():
        yield book.remember("procedure", id_, partial(_sheet, book, own, shared, batch))


def _sheet(book: Book, own: Procedure, shared: Common, batch: Batch | None) -> Sheet:
    scribe = Scribe(book, own, shared)
    wrong = goes_wrong(scribe)
    title = scribe.pen.plain(own.title)
    lede = Markup(" ").join(in_words.sentence(scribe.words(reason)) for reason in own.because)
    paths = [own.at.path, *(p.at.path for p in used_procedures(book.notebook, own))]
    found = [(f.code, f.message, f"{f.at.path}:{f.at.line}") for f in book.errors_of(paths)]
    before, after = _neighbours(scribe)
    html = pressed(
        "procedure.html.j2", kicker=_kicker(scribe), title=title, lede=lede, unsound=found,
        notes=_notes(scribe), before=before, after=after, used_in=use_places(scribe),
        rows=docket(scribe, batch), whole=stay_whole(scribe), ready=lay_ready(scribe), choices=choices(scribe),
        all_through=whole(scribe), steps=steps(scribe), judged=judged(scribe, own, None),
        judged_title=_judged_title(own), wrong=wrong,
        figures=figure_views(scribe.pen, "procedure", str(own.procedure)),
        used_by=used_by(scribe), book=in_the_book(scribe), last=written(scribe, own), questions=asked(scribe, own),
        revisions=came_about(scribe),
    )
    told = " ".join(scribe.pen.plain(reason) for reason in own.because[:2])
    parts = (*finder_parts(scribe), *(wrong.parts if wrong is not None else ()))
    return Sheet(scribe.src_uri, title, html, told, parts, own.at.path)


def _kicker(scribe: Scribe) -> Markup:
    """The way up: to the map, and to the part."""
    map_ = filled('<a href="{}">The work</a>', scribe.pen.to(WORK))
    parts = [scribe.pen.link("part", part) for part in scribe.nb.parts_of(scribe.own)]
    if not parts:
        return filled("{} · Shared work", map_) if use_places(scribe) else map_
    return filled("{} · {}", map_, in_words.capital(in_words.listed(parts)))


def _judged_title(own: Procedure) -> str:
    tells = own.limits or own.feel or own.checks or own.finds or own.until
    if tells:
        return "How you know it is good"
    waits = "how long it may stand" if own.wait or own.windows else ""
    return str(in_words.capital(", and ".join(filter(None, ("again" if own.repeat is not None else "", waits)))))


def _notes(scribe: Scribe) -> list[Markup]:
    own = scribe.own
    only = scribe.only(own)
    lines = [in_words.sentence(only.words)] if only.words else []
    return [*lines, *scribe.tail(own)]


def _neighbours(scribe: Scribe) -> tuple[list[tuple[str, str | None]], list[tuple[str, str | None]]]:
    route = scribe.book.survey.route
    id_ = str(scribe.own.procedure)
    before, after = (
        [scribe.pen.pair("procedure", one) for one in side.get(id_, ())] for side in (route.before, route.after)
    )
    return before, after
