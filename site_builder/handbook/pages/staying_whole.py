"""Staying whole: the law, first aid, what can hurt, what to wear, who is too young, what never to do."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.book import WHOLE, Book, Sheet
from site_builder.handbook.finder import Part as FinderPart
from site_builder.handbook.pages.press import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pages.uses import uses_of
from site_builder.handbook.pages.whole_days import whole_days
from site_builder.handbook.pages.whole_harms import gathered_hazards, gathered_nevers, keep_away
from site_builder.handbook.pages.whole_people import age_ledger, exposure_ledger
from site_builder.handbook.pages.whole_wear import kinds_ledger, unprotected, wear_ledger
from site_builder.handbook.pen import Pen


def whole_sheets(book: Book) -> Iterator[Sheet]:
    """One sheet."""
    pen = Pen(book, WHOLE)
    uses = uses_of(book)
    shop = book.notebook.shop
    accident = shop.accident if shop is not None else ()
    groups = gathered_hazards(pen)
    html = pressed(
        "staying_whole.html.j2",
        accident=[pen.words(line) for line in accident], groups=groups, away=keep_away(pen),
        wear=wear_ledger(pen, uses), bare=unprotected(pen, uses), kinds=kinds_ledger(pen, uses),
        ages=age_ledger(pen), nevers=gathered_nevers(pen), exposures=exposure_ledger(pen, uses),
        days=whole_days(pen, uses),
        unsound=unsound(book, (shop.at.path,) if shop is not None else ()),
    )
    parts = (
        *(FinderPart("if-someone-is-hurt", "If someone is hurt", pen.plain(line)) for line in accident[:1]),
        *(FinderPart(hazard.id, str(hazard.what.striptags())) for group in groups for hazard in group.hazards),
    )
    told = "What can hurt in this shop, what to wear, who is too young, and what to do when somebody is hurt."
    yield Sheet(WHOLE, "Staying whole", html, told, parts, shop.at.path if shop is not None else "")
