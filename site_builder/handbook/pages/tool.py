"""A page for each machine, hand tool, gauge, tooling, protection and reference piece."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup

from site_builder.handbook.book import Book, Sheet
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.press import pressed
from site_builder.handbook.pages.readings import Fact
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pages.thing_view import parts_to_find, thing_view
from site_builder.handbook.pages.uses import Uses, uses_of
from site_builder.handbook.pen import Pen
from site_builder.handbook.text import typeset
from site_builder.notebook.model.things import Sample, Tool

KINDS = {
    "machine": "Machines", "hand-tool": "Hand tools", "gauge": "Gauges", "tooling": "Tooling",
    "protection": "Protection", "sample": "Reference pieces",
}
"""The kinds of tools and what a reader calls all of a kind."""


def tool_sheets(book: Book) -> Iterator[Sheet]:
    """One sheet a tool, in the order of the notebook."""
    uses = uses_of(book)
    for id_, tool in book.notebook.tools.items():
        yield _sheet(book, uses, id_, tool)


def _sheet(book: Book, uses: Uses, id_: str, tool: Tool) -> Sheet:
    src_uri = book.addresses["tool", id_]
    pen = Pen(book, src_uri)
    title = pen.title("tool", id_)
    lede = Markup(" ").join(pen.words(reason) for reason in tool.because)
    view = thing_view(pen, uses, tool)
    html = pressed(
        "tool.html.j2",
        kicker=Markup('<a href="{}">The tools</a> · {}').format(pen.to("the-tools/index.md"), KINDS[tool.KIND]),
        title=title, lede=lede, maker=_maker(pen, tool), v=view, legend=_legend(pen, tool),
        figures=figure_views(pen, "tool", str(tool.id)), unsound=unsound(book, (tool.at.path,)),
    )
    told = " ".join(filter(None, (pen.plain(tool.because[0]) if tool.because else "", pen.plain(tool.maker))))
    return Sheet(src_uri, title, html, told, parts_to_find(pen, tool), tool.at.path)


def _maker(pen: Pen, tool: Tool) -> Markup:
    note = pen.words(tool.note)
    maker = Markup("Made by: {}.").format(pen.words(tool.maker)) if tool.maker else Markup("")
    return Markup(" ").join(part for part in (maker, note) if part)


def _legend(pen: Pen, tool: Tool) -> tuple[Fact, ...]:
    if not isinstance(tool, Sample):
        return ()
    return tuple(Fact(typeset(str(mark)), words=pen.words(meaning)) for mark, meaning in tool.legend.items())
