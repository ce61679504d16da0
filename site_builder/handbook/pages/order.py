"""A page for each order: pieces to start, hours, what is used up, who can do what, what is not known."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup, escape

from site_builder.craft.errors import Impossible
from site_builder.figures.batch_hours import BatchSaid
from site_builder.figures.batch_orders import calendar_of
from site_builder.figures.batch_tables import BatchTable, Cell, Code, Named, Ref, batch_tables
from site_builder.handbook.book import START, Book, Sheet
from site_builder.handbook.filled import filled
from site_builder.handbook.finder import Part
from site_builder.handbook.pages.figures import figure_views
from site_builder.handbook.pages.in_words import capital, listed, sentence
from site_builder.handbook.pages.press import pressed
from site_builder.handbook.pages.readings import Fact
from site_builder.handbook.pages.roll import Roll
from site_builder.handbook.pages.sayings import valued
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pen import Pen
from site_builder.handbook.text import typeset
from site_builder.notebook.model.shop import Order
from site_builder.season.used_up import used_up

Ledger = tuple[str, str, tuple[str, ...], list[list[Markup]]]
_SECTIONS = (
    ("start", "Pieces to start", ("start",)), ("hours", "Hours, and who can do what", ("hours",)),
    ("used-up", "To be bought and used up", ("bought", "materials", "wear")),
    ("not-known", "What is not known", ("unknown",)),
)


def order_sheets(book: Book) -> Iterator[Sheet]:
    """One sheet an order."""
    if book.notebook.orders:
        roll = Roll(book)
        for id_, order in book.notebook.orders.items():
            yield _sheet(roll, id_, order)


def order_lines(pen: Pen, product: str | None = None) -> list[Markup]:
    """Orders, of one product or all, in a line each: what, how many, by when."""
    return [_line(pen, id_, order) for id_, order in pen.book.notebook.orders.items()
            if product is None or order.product == product]


def _line(pen: Pen, id_: str, order: Order) -> Markup:
    pieces = filled(", {} pieces", valued(pen, order.pieces)) if order.pieces is not None else ""
    due = f", by {pen.date(order.due)}" if order.due is not None else ""
    return filled("{}{}{}", pen.link("order", id_), pieces, due)


def _sheet(roll: Roll, id_: str, order: Order) -> Sheet:
    book = roll.book
    src_uri = book.addresses["order", id_]
    pen = Pen(book, src_uri)
    title = pen.title("order", id_)
    said = _said(book, id_, order)
    tables = batch_tables(said, used_up(said.nb, said.batch), book.survey.holders) if said is not None else ()
    html = pressed(
        "order.html.j2", kicker=filled('<a href="{}">Start here</a> · An order', pen.to(START)), title=title,
        lede=Markup(" ").join(sentence(pen.words(reason)) for reason in order.because), note=pen.words(order.note),
        unsound=unsound(book, (order.at.path,)), facts=[*_facts(pen, order)], figures=figure_views(pen, "order", id_),
        sections=[(anchor, heading, ledgers) for anchor, heading, names in _SECTIONS
                  if (ledgers := [_ledger(roll, pen, one) for one in tables if one.name.split("-")[0] in names])],
        silent=said.silent if said is not None else _silent(book, id_, order),
    )
    parts = tuple(Part(anchor, f"{title}: {heading.lower()}") for anchor, heading, _ in _SECTIONS) if tables else ()
    return Sheet(src_uri, title, html, pen.plain(order.because[0]) if order.because else "", parts, order.at.path)


def _said(book: Book, id_: str, order: Order) -> BatchSaid | None:
    batch = book.survey.batches.get(id_)
    if batch is None or isinstance(batch, Impossible):
        return None
    return BatchSaid(book.notebook, batch, id_, str(order.title), calendar_of(book.notebook, order), book.survey.today)


def _silent(book: Book, id_: str, order: Order) -> str:
    """Why nothing can be reckoned of a batch that is none."""
    batch = book.survey.batches.get(id_)
    if isinstance(batch, Impossible):
        return f"Nothing can be reckoned: {batch}."
    missing = listed(name for name, told in (("of what", order.product), ("how many", order.pieces)) if not told)
    return f"Nothing can be reckoned yet: it is not told {missing or 'what it is for'}."


def _facts(pen: Pen, order: Order) -> Iterator[Fact]:
    nb = pen.book.notebook
    if order.product is not None:
        yield Fact("Of what", words=pen.link("part", str(order.product)))
    if order.pieces is not None:
        yield Fact("How many", words=valued(pen, order.pieces))
    if order.due is not None:
        yield Fact("Due", words=escape(pen.date(order.due)))
    if order.customer is not None:
        customer = nb.shop.customers.get(order.customer) if nb.shop is not None else None
        yield Fact("For whom", words=pen.words(customer.title if customer is not None else order.customer))
    for name, value in order.chosen.items():
        yield Fact(str(capital(str(name))), words=pen.words(value))


def _ledger(roll: Roll, pen: Pen, table: BatchTable) -> Ledger:
    rows = [[_cell(roll, pen, cell) for cell in row] for row in table.rows]
    return table.name.split("-")[0], typeset(table.caption), table.columns, rows


def _cell(roll: Roll, pen: Pen, cell: Cell) -> Markup:
    if isinstance(cell, Code):
        return filled("<code>{}</code>", cell.line)
    if isinstance(cell, Ref):
        return pen.link(cell.kind, cell.id, roll.short.get(cell.id) if cell.kind == "person" else None)
    if isinstance(cell, Named):
        names = listed(_cell(roll, pen, one) for one in cell.refs)
        return filled("{} {}", cell.lead, names) if cell.lead else names
    return escape(typeset(cell))
