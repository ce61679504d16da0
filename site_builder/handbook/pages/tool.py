"""A page for each machine, hand tool, gauge, tooling, protection and reference piece."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.own_weeks import OwnWeeks, weeks_of_machine
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.site import TOOLS, Page, Site
from site_builder.notebook.kinds import by_key
from site_builder.notebook.model.things import Machine, Thing, Tool
from site_builder.views.prose import Ref, joined, linked, say
from site_builder.views.thing import thing_view
from site_builder.views.thing_head import legend, maker_and_note
from site_builder.views.typeset import typeset


def tool_pages(site: Site) -> Iterator[Page]:
    """One sheet a tool, in the order of the notebook."""
    for id_, tool in site.notebook.tools.items():
        yield _sheet(site, id_, tool)


def _sheet(site: Site, id_: str, tool: Tool) -> Page:
    context = PageContext(site, site.addresses["tool", id_])
    scope = context.scope(tool)
    title = context.title("tool", id_)
    html = pressed(
        "thing.html.j2", context, title=title,
        kicker=say("{} · {}", linked("The tools", Ref("chapter", TOOLS)), by_key()[tool.KIND].several),
        lede=joined(map(scope.words, tool.because)), note=maker_and_note(scope, tool),
        v=thing_view(scope, site.uses, tool), legend=legend(scope, tool), law="", apart=(),
        figures=figure_views(context, "tool", id_), weeks=_weeks(context, id_, tool),
        unsound=unsound(site, (tool.at.path,)),
    )
    told = " ".join(filter(None, (context.plain(tool.because[0]) if tool.because else "", context.plain(tool.maker))))
    return Page(context.src_uri, title, html, told, parts_to_find(context, tool), tool.at.path)


def _weeks(context: PageContext, id_: str, tool: Tool) -> OwnWeeks | None:
    return weeks_of_machine(context, id_) if isinstance(tool, Machine) or tool.count is not None else None


def parts_to_find(context: PageContext, thing: Thing) -> tuple[Part, ...]:
    """What the finder shows of a thing: its hazards and what it needs."""
    found = [Part("hazards", typeset(context.plain(h.hazard)), context.plain(h.harm)) for h in thing.hazards[:1]]
    if thing.upkeep:
        found.append(Part("upkeep", "Upkeep", " ".join(context.plain(s.do) for s in thing.upkeep if s.do)))
    return tuple(found)
