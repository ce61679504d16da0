"""The page of a procedure: the heart of the handbook."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from markupsafe import Markup

from site_builder.handbook.filled import filled
from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.procedure_after import came_about, in_the_book, use_places, used_by
from site_builder.handbook.pages.procedure_docket import Batch, docket, first_batch
from site_builder.handbook.pages.procedure_harm import stay_whole
from site_builder.handbook.pages.procedure_reading import choices
from site_builder.handbook.pages.procedure_ready import lay_ready
from site_builder.handbook.pages.procedure_steps import asked, finder_parts, judged, steps, whole, written
from site_builder.handbook.pages.procedure_troubles import goes_wrong
from site_builder.handbook.pages.procedure_view import Common, ProcedureView, common
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.site import WORK, Page, Site
from site_builder.notebook.gather import used_procedures
from site_builder.notebook.model.procedure import Procedure


def procedure_pages(site: Site) -> Iterator[Page]:
    """A page for every procedure; one of the last build is kept if nothing changed of which it tells (`page_keys`)."""
    shared = common(site)
    batch = first_batch(site)
    for id_, own in site.notebook.procedures.items():
        yield site.remember("procedure", id_, partial(_sheet, site, own, shared, batch))


def _sheet(site: Site, own: Procedure, shared: Common, batch: Batch | None) -> Page:
    view = ProcedureView(site, own, shared)
    wrong = goes_wrong(view)
    title = view.context.plain(own.title)
    lede = Markup(" ").join(in_words.sentence(view.words(reason)) for reason in own.because)
    paths = [own.at.path, *(p.at.path for p in used_procedures(site.notebook, own))]
    found = [(f.code, f.message, f"{f.at.path}:{f.at.line}") for f in site.errors_of(paths)]
    before, after = _neighbours(view)
    html = pressed(
        "procedure.html.j2", kicker=_kicker(view), title=title, lede=lede, unsound=found,
        notes=_notes(view), before=before, after=after, used_in=use_places(view),
        rows=docket(view, batch), whole=stay_whole(view), ready=lay_ready(view), choices=choices(view),
        all_through=whole(view), steps=steps(view), judged=judged(view, own, None),
        judged_title=_judged_title(own), wrong=wrong,
        figures=figure_views(view.context, "procedure", str(own.procedure)),
        used_by=used_by(view), book=in_the_book(view), last=written(view, own), questions=asked(view, own),
        revisions=came_about(view),
    )
    told = " ".join(view.context.plain(reason) for reason in own.because[:2])
    parts = (*finder_parts(view), *(wrong.parts if wrong is not None else ()))
    return Page(view.src_uri, title, html, told, parts, own.at.path)


def _kicker(view: ProcedureView) -> Markup:
    """The way up: to the map, and to the part."""
    map_ = filled('<a href="{}">The work</a>', view.context.to(WORK))
    parts = [view.context.link("part", part) for part in view.nb.parts_of(view.own)]
    if not parts:
        return filled("{} · Shared work", map_) if use_places(view) else map_
    return filled("{} · {}", map_, in_words.capital(in_words.listed(parts)))


def _judged_title(own: Procedure) -> str:
    tells = own.limits or own.feel or own.checks or own.finds or own.until
    if tells:
        return "How you know it is good"
    waits = "how long it may stand" if own.wait or own.windows else ""
    return str(in_words.capital(", and ".join(filter(None, ("again" if own.repeat is not None else "", waits)))))


def _notes(view: ProcedureView) -> list[Markup]:
    own = view.own
    only = view.only(own)
    lines = [in_words.sentence(only.words)] if only.words else []
    return [*lines, *view.tail(own)]


def _neighbours(view: ProcedureView) -> tuple[list[tuple[str, str | None]], list[tuple[str, str | None]]]:
    route = view.book.analysis.route
    id_ = str(view.own.procedure)
    before, after = (
        [view.context.pair("procedure", one) for one in side.get(id_, ())] for side in (route.before, route.after)
    )
    return before, after
