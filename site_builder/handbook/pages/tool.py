"""A page for each machine, hand tool, gauge, tooling, protection and reference piece."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.readings import Fact
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pages.thing_view import parts_to_find, thing_view
from site_builder.handbook.pages.uses import Uses, uses_of
from site_builder.handbook.site import Page, Site
from site_builder.notebook.model.things import Sample, Tool
from site_builder.views.typeset import typeset

KINDS = {
    "machine": "Machines", "hand-tool": "Hand tools", "gauge": "Gauges", "tooling": "Tooling",
    "protection": "Protection", "sample": "Reference pieces",
}
"""The kinds of tools and what a reader calls all of a kind."""


def tool_pages(site: Site) -> Iterator[Page]:
    """One sheet a tool, in the order of the notebook."""
    uses = uses_of(site)
    for id_, tool in site.notebook.tools.items():
        yield _sheet(site, uses, id_, tool)


def _sheet(site: Site, uses: Uses, id_: str, tool: Tool) -> Page:
    src_uri = site.addresses["tool", id_]
    context = PageContext(site, src_uri)
    title = context.title("tool", id_)
    lede = Markup(" ").join(context.words(reason) for reason in tool.because)
    view = thing_view(context, uses, tool)
    html = pressed(
        "tool.html.j2", context,
        kicker=Markup('<a href="{}">The tools</a> · {}').format(context.to("the-tools/index.md"), KINDS[tool.KIND]),
        title=title, lede=lede, maker=_maker(context, tool), v=view, legend=_legend(context, tool),
        figures=figure_views(context, "tool", str(tool.id)), unsound=unsound(site, (tool.at.path,)),
    )
    told = " ".join(filter(None, (context.plain(tool.because[0]) if tool.because else "", context.plain(tool.maker))))
    return Page(src_uri, title, html, told, parts_to_find(context, tool), tool.at.path)


def _maker(context: PageContext, tool: Tool) -> Markup:
    note = context.words(tool.note)
    maker = Markup("Made by: {}.").format(context.words(tool.maker)) if tool.maker else Markup("")
    return Markup(" ").join(part for part in (maker, note) if part)


def _legend(context: PageContext, tool: Tool) -> tuple[Fact, ...]:
    if not isinstance(tool, Sample):
        return ()
    return tuple(Fact(typeset(str(mark)), words=context.words(meaning)) for mark, meaning in tool.legend.items())
