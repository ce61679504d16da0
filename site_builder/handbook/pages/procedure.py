"""The page of a procedure: the heart of the handbook."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import partial

from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.site import WORK, Page, Site
from site_builder.notebook.gather import used_procedures
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.references import all_steps
from site_builder.views.after import came_about, use_places, used_by
from site_builder.views.choice import choices
from site_builder.views.docket import Batch, docket, first_batch
from site_builder.views.hazard import stay_whole
from site_builder.views.keep import in_the_book, written
from site_builder.views.prose import Prose, Ref, capital, capital_text, joined, linked, listed, say, sentence
from site_builder.views.ready import lay_ready
from site_builder.views.scope import ProcedureScope
from site_builder.views.step import asked, judged, steps, whole
from site_builder.views.trouble import goes_wrong


def procedure_pages(site: Site) -> Iterator[Page]:
    """A page for every procedure; one of the last build is kept if all that it asked gets the same answer."""
    batch = first_batch(site.notebook)
    for id_, own in site.notebook.procedures.items():
        yield site.remember("procedure", id_, partial(_sheet, own=own, batch=batch))


def _sheet(site: Site, own: Procedure, batch: Batch | None) -> Page:
    scope = ProcedureScope(site.views, own)
    context = PageContext(site, site.addresses["procedure", scope.id])
    title = context.plain(own.title)
    lede = joined(sentence(scope.words(reason)) for reason in own.because)
    paths = [own.at.path, *(p.at.path for p in used_procedures(site.notebook, own))]
    found = [(f.code, f.message, f"{f.at.path}:{f.at.line}") for f in site.errors_of(paths)]
    route = site.analysis.route
    html = pressed(
        "procedure.html.j2", context, kicker=_kicker(scope), title=title, lede=lede, unsound=found,
        notes=_notes(scope), before=_links(scope, route.before), after=_links(scope, route.after),
        used_in=use_places(scope), rows=docket(scope, batch), whole=stay_whole(scope), ready=lay_ready(scope),
        choices=choices(scope), all_through=whole(scope), steps=steps(scope), judged=judged(scope, own, None),
        judged_title=_judged_title(own), wrong=goes_wrong(scope), figures=figure_views(context, "procedure", scope.id),
        used_by=used_by(scope), book=in_the_book(scope), last=written(scope, own), questions=asked(scope, own),
        revisions=came_about(scope),
    )
    told = " ".join(context.plain(reason) for reason in own.because[:2])
    return Page(context.src_uri, title, html, told, (*_steps_to_find(scope), *_troubles_to_find(scope)), own.at.path)


def _kicker(scope: ProcedureScope) -> Prose:
    """The way up: to the map, and to the part."""
    work = linked("The work", Ref("chapter", WORK))
    parts = [scope.view.link("part", part) for part in scope.nb.parts_of(scope.own)]
    if not parts:
        return say("{} · Shared work", work) if use_places(scope) else work
    return say("{} · {}", work, capital(listed(parts)))


def _judged_title(own: Procedure) -> str:
    tells = own.limits or own.feel or own.checks or own.finds or own.until
    if tells:
        return "How you know it is good"
    waits = "how long it may stand" if own.wait or own.windows else ""
    return capital_text(", and ".join(filter(None, ("again" if own.repeat is not None else "", waits))))


def _notes(scope: ProcedureScope) -> list[Prose]:
    only = scope.only(scope.own)
    return [*([sentence(only.words)] if only.words else []), *scope.tail(scope.own)]


def _links(scope: ProcedureScope, side: Mapping[str, Iterable[str]]) -> list[Prose]:
    """The work on one side of this one."""
    return [scope.view.link("procedure", one) for one in side.get(scope.id, ())]


def _steps_to_find(scope: ProcedureScope) -> Iterator[Part]:
    """One record a step for the finder."""
    plain = scope.view.plain
    for number, step in enumerate(scope.own.steps, 1):
        do = plain(step.do) if step.do is not None else scope.view.title("procedure", str(step.use))
        yield Part(scope.view.anchor(step), f"{number}. {do}", " ".join(plain(p.point) for p in step.points))


def _troubles_to_find(scope: ProcedureScope) -> Iterator[Part]:
    plain = scope.view.plain
    for work in (scope.own, *all_steps(scope.own)):
        for one in work.troubles:
            yield Part(scope.trouble_anchors[id(one)], plain(one.sign), " ".join(map(plain, (*one.cause, *one.do))))
