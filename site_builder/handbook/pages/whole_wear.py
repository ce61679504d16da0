"""What to wear for which work: by the work, and by the piece of protection."""

from __future__ import annotations

from markupsafe import Markup

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.sayings import end_words
from site_builder.handbook.pages.thing_view import Ledger, ledger
from site_builder.handbook.pages.uses import Uses
from site_builder.views.wear import worn_by_work

Cells = tuple[Markup | str, ...]


def wear_ledger(context: PageContext, uses: Uses) -> Ledger | None:
    """A row for each way of being protected, with all the work it is for."""
    procedures = context.book.notebook.procedures
    worn = worn_by_work(context.book.views, (procedures[id_] for id_, worn in uses.worn_for.items() if worn))
    rows: list[Cells] = [(context.said(work), context.said(what)) for work, what in worn]
    return ledger("By the work", ("Work", "Wear"), rows)


def unprotected(context: PageContext, uses: Uses) -> list[Markup]:
    """Work for which nobody has written anything to wear."""
    return [context.link("procedure", id_) for id_, worn in uses.worn_for.items() if not worn]


def kinds_ledger(context: PageContext, uses: Uses) -> Ledger | None:
    """A row for each piece of protection: which work, how it is looked at, when it is changed."""
    rows: list[Cells] = []
    for id_, tool in context.book.notebook.protection.items():
        looked = Markup(" ").join(context.words(check.good) for check in tool.checks if check.good)
        changed = Markup(" ").join(end_words(context, end)[0] for end in tool.life)
        rows.append((context.link("tool", id_), uses.in_short(context, "tool", id_, most=4), looked, changed))
    return ledger("By what is worn", ("What", "For", "Look first", "Change it when"), rows)

