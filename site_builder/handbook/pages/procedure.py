"""The page of a procedure: the heart of the handbook."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields
from functools import partial

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.procedure_to_find import places_to_find
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.site import WORK, Page, Site
from site_builder.notebook.gather import used_procedures
from site_builder.notebook.model.procedure import Procedure
from site_builder.views.docket import Batch, first_batch
from site_builder.views.procedure import ProcedureView, procedure_view
from site_builder.views.prose import Ref, linked, say
from site_builder.views.scope import ProcedureScope


def procedure_pages(site: Site) -> Iterator[Page]:
    """A page for every procedure; one of the last build is kept if all that it asked gets the same answer."""
    batch = first_batch(site.notebook)
    for id_, own in site.notebook.procedures.items():
        yield site.remember("procedure", id_, partial(_sheet, own=own, batch=batch))


def _sheet(site: Site, own: Procedure, batch: Batch | None) -> Page:
    scope = ProcedureScope(site.views, own)
    context = PageContext(site, site.addresses["procedure", scope.id])
    view = procedure_view(scope, batch)
    paths = [own.at.path, *(p.at.path for p in used_procedures(site.notebook, own))]
    found = [(f.code, f.message, f"{f.at.path}:{f.at.line}") for f in site.errors_of(paths)]
    work = linked("The work", Ref("chapter", WORK))
    told_here = {field.name: getattr(view, field.name) for field in fields(view)}
    html = pressed(
        "procedure.html.j2", context, kicker=say("{} · {}", work, view.parts) if view.parts else work, unsound=found,
        beside=_beside(site, context, view, scope.id), **told_here,
    )
    told = " ".join(context.plain(reason) for reason in own.because[:2])
    return Page(context.src_uri, view.title, html, told, tuple(places_to_find(scope)), own.at.path)


def _beside(site: Site, context: PageContext, view: ProcedureView, id_: str) -> list[tuple[str, str, str]]:
    """(words, address, the anchor that once stood here) of what stands on the page beside this one."""
    told = (("What it adds up to", "comes-to", ("procedure", id_) in site.analysis.figures),
            ("What else leads here", "used-by", bool(view.used_by)),
            ("How it came about", "came-about", bool(view.revisions)))
    page = site.addresses["reckoning", id_]
    return [(words, context.to(page, anchor), anchor) for words, anchor, is_told in told if is_told]
