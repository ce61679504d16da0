"""Beside the page of a procedure: what it adds up to, what else leads there, how this way of working came about.

Nobody needs it at the bench; whoever plans the batch finds it at one touch.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.site import WORK, Page, Site
from site_builder.notebook.model.procedure import Procedure
from site_builder.views.after import came_about, used_by
from site_builder.views.prose import Ref, linked, say
from site_builder.views.scope import ProcedureScope


def reckoning_pages(site: Site) -> Iterator[Page]:
    """A page for every procedure of which there is anything of the kind to tell."""
    for id_, own in site.notebook.procedures.items():
        if has_reckoning(site, own):
            yield site.remember("reckoning", id_, partial(_sheet, own=own))


def has_reckoning(site: Site, own: Procedure) -> bool:
    """Whether a procedure has such a page."""
    id_ = str(own.procedure)
    return bool(own.revisions or ("procedure", id_) in site.analysis.figures
                or used_by(ProcedureScope(site.views, own)))


def _sheet(site: Site, own: Procedure) -> Page:
    scope = ProcedureScope(site.views, own)
    context = PageContext(site, site.addresses["reckoning", scope.id])
    title = site.views.plain(own.title)
    back = site.views.link("procedure", scope.id)
    html = pressed(
        "procedure_reckoning.html.j2", context, kicker=say("{} · {}", linked("The work", Ref("chapter", WORK)), back),
        title=f"{title}: what it adds up to", back=back, figures=figure_views(context, "procedure", scope.id),
        used_by=used_by(scope), revisions=came_about(scope),
    )
    return Page(context.src_uri, f"{title}: what it adds up to", html, f"Figures and history of {title}.", (),
                own.at.path, findable=False)
