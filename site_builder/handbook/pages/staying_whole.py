"""Staying whole: the law, first aid, what can hurt, what to wear, who is too young, what never to do."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.finder import Part as FinderPart
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pages.uses import uses_of
from site_builder.handbook.pages.whole_days import whole_days
from site_builder.handbook.pages.whole_harms import gathered_hazards, gathered_nevers, keep_away
from site_builder.handbook.pages.whole_people import age_ledger, exposure_ledger
from site_builder.handbook.pages.whole_wear import kinds_ledger, unprotected, wear_ledger
from site_builder.handbook.site import WHOLE, Page, Site


def whole_pages(site: Site) -> Iterator[Page]:
    """One sheet."""
    context = PageContext(site, WHOLE)
    uses = uses_of(site)
    shop = site.notebook.shop
    accident = shop.accident if shop is not None else ()
    groups = gathered_hazards(context)
    html = pressed(
        "staying_whole.html.j2",
        accident=[context.words(line) for line in accident], groups=groups, away=keep_away(context),
        wear=wear_ledger(context, uses), bare=unprotected(context, uses), kinds=kinds_ledger(context, uses),
        ages=age_ledger(context), nevers=gathered_nevers(context), exposures=exposure_ledger(context, uses),
        days=whole_days(context, uses),
        unsound=unsound(site, (shop.at.path,) if shop is not None else ()),
    )
    parts = (
        *(FinderPart("if-someone-is-hurt", "If someone is hurt", context.plain(line)) for line in accident[:1]),
        *(FinderPart(hazard.id, str(hazard.what.striptags())) for group in groups for hazard in group.hazards),
    )
    told = "What can hurt in this shop, what to wear, who is too young, and what to do when somebody is hurt."
    yield Page(WHOLE, "Staying whole", html, told, parts, shop.at.path if shop is not None else "")
