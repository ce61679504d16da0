"""A page for each order: pieces to start, hours, what is used up, who can do what, what is not known."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.batch.used_up import used_up
from site_builder.figures.batch_hours import BatchSaid
from site_builder.figures.batch_orders import calendar_of
from site_builder.figures.batch_tables import BatchTable, Cell, Code, Named, Ref, tables_of_all
from site_builder.formulas.errors import Impossible
from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.site import START, Page, Site
from site_builder.notebook.model.shop import Order, OrderShare
from site_builder.views.prose import Prose, capital, joined, linked, listed, prose, say, sentence
from site_builder.views.prose import Ref as Place
from site_builder.views.rest import tailed, whole
from site_builder.views.typeset import typeset

Ledger = tuple[str, str, tuple[str, ...], list[list[Prose]]]
_SECTIONS = (
    ("start", "Pieces to start", ("start",)), ("hours", "Hours, and who can do what", ("hours",)),
    ("used-up", "To be bought and used up", ("bought", "materials", "wear")),
    ("not-known", "What is not known", ("unknown",)),
)


def order_pages(site: Site) -> Iterator[Page]:
    """One sheet an order."""
    if site.notebook.orders:
        people_index = PeopleIndex(site)
        for id_, order in site.notebook.orders.items():
            yield _sheet(people_index, id_, order)


def order_lines(context: PageContext, product: str | None = None) -> list[Prose]:
    """Orders, of one product or all, in a line each: what, how many, by when."""
    return [_line(context, id_, order) for id_, order in context.book.notebook.orders.items()
            if product is None or order.product == product]


def _line(context: PageContext, id_: str, order: Order) -> Prose:
    pieces = say(", {} pieces", context.valued(order.pieces)) if order.pieces is not None else ""
    due = f", by {context.date(order.due)}" if order.due is not None else ""
    return say("{}{}{}", context.link("order", id_), pieces, due)


def _sheet(people_index: PeopleIndex, id_: str, order: Order) -> Page:
    book = people_index.book
    src_uri = book.addresses["order", id_]
    context = PageContext(book, src_uri)
    title = context.title("order", id_)
    told = _said(book, id_, order)
    used = [(said, used_up(said.nb, book.analysis.reckoning, said.batch)) for said in told]
    tables = tables_of_all(used, book.analysis.holders)
    html = pressed(
        "order.html.j2", context,
        kicker=say("{} · An order", linked("Start here", Place("chapter", START))),
        title=title,
        lede=joined(sentence(context.words(reason)) for reason in order.because),
        note=context.words(order.note),
        unsound=unsound(book, (order.at.path,)),
        facts=[*_facts(context, order)],
        figures=figure_views(context, "order", id_),
        sections=[
            (anchor, heading, ledgers)
            for anchor, heading, names in _SECTIONS
            if (ledgers := [_ledger(people_index, context, one) for one in tables if one.name.split("-")[0] in names])
        ],
        silent=told[0].silent if told else _silent(book, id_, order),
    )
    parts = tuple(Part(anchor, f"{title}: {heading.lower()}") for anchor, heading, _ in _SECTIONS) if tables else ()
    return Page(src_uri, title, html, context.plain(order.because[0]) if order.because else "", parts, order.at.path)


def _said(site: Site, id_: str, order: Order) -> list[BatchSaid]:
    """What is made for it, or the ways in which it can be made, one beside the other."""
    batches = site.analysis.batches.get(id_)
    calendar = calendar_of(site.notebook, order)
    return [BatchSaid(site.notebook, batch, id_, str(order.title), calendar, site.analysis.today)
            for batch in (batches if batches is not None and not isinstance(batches, Impossible) else ())]


def _silent(site: Site, id_: str, order: Order) -> str:
    """Why nothing can be reckoned of a batch that is none."""
    batch = site.analysis.batches.get(id_)
    if isinstance(batch, Impossible):
        return f"Nothing can be reckoned: {batch}."
    missing = listed(name for name, told in (("of what", order.product), ("how many", order.pieces)) if not told)
    return f"Nothing can be reckoned yet: it is not told {missing or 'what it is for'}."


def _facts(context: PageContext, order: Order) -> Iterator[tuple[str, Prose]]:
    nb = context.book.notebook
    if order.product is not None:
        yield "Of what", capital(context.link("part", str(order.product)))
    if order.pieces is not None:
        yield "How many", capital(context.valued(order.pieces))
    if order.due is not None:
        yield "Due", capital(prose(context.date(order.due)))
    if order.customer is not None:
        customer = nb.shop.customers.get(order.customer) if nb.shop is not None else None
        yield "For whom", capital(context.words(customer.title if customer is not None else order.customer))
    for name, value in order.chosen.items():
        yield str(capital(str(name))), capital(context.words(value))
    if order.split:
        yield "Of these", joined((_share(context, one) for one in order.split), "; ")
    scope = context.scope(order)
    if order.pinned:
        yield "Bound", joined(whole(scope, pin) for pin in order.pinned)
    if order.calendar is not None:
        yield "Its own days", whole(scope, order.calendar)
    if order.source is not None:
        yield "Where from", capital(scope.source(order.source))
    if order.told:
        yield "Told", joined(scope.heard(order))
    if order.answered:
        yield "Asked", joined(scope.answers(order))


def _share(context: PageContext, share: OrderShare) -> Prose:
    """``60 pieces: pattern deck``."""
    chosen = joined((say("{} {}", name, context.words(value)) for name, value in share.chosen.items()), ", ")
    pieces = say("{} pieces", context.valued(share.pieces)) if share.pieces is not None else prose("some")
    said = say("{}: {}", pieces, chosen) if chosen else pieces
    return tailed(context.scope(share), share, said, ("pieces", "chosen"))


def _ledger(people_index: PeopleIndex, context: PageContext, table: BatchTable) -> Ledger:
    rows = [[_cell(people_index, context, cell) for cell in row] for row in table.rows]
    return table.name.split("-")[0], typeset(table.caption), table.columns, rows


def _cell(people_index: PeopleIndex, context: PageContext, cell: Cell) -> Prose:
    if isinstance(cell, Code):
        return say("`{}`", cell.line)
    if isinstance(cell, Ref):
        return context.link(cell.kind, cell.id, people_index.short.get(cell.id) if cell.kind == "person" else None)
    if isinstance(cell, Named):
        names = listed(_cell(people_index, context, one) for one in cell.refs)
        return say("{} {}", cell.lead, names) if cell.lead else names
    return prose(typeset(cell))
