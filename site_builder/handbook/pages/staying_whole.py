"""Staying whole: the law, first aid, what can hurt, what to wear, who is too young, what never to do."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.finder import Part as FinderPart
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.site import WHOLE, Page, Site
from site_builder.views.shop_ages import age_ledger, exposure_ledger
from site_builder.views.shop_days import whole_days
from site_builder.views.shop_harms import gathered_hazards, gathered_nevers, keep_away
from site_builder.views.shop_wear import kinds_ledger, unprotected, wear_ledger


def whole_pages(site: Site) -> Iterator[Page]:
    """One sheet."""
    context = PageContext(site, WHOLE)
    uses = site.uses
    shop = site.notebook.shop
    accident = shop.accident if shop is not None else ()
    groups = gathered_hazards(site.views)
    html = pressed(
        "staying_whole.html.j2", context,
        accident=[site.views.words(line) for line in accident], groups=groups, away=keep_away(site.views),
        wear=wear_ledger(uses), bare=unprotected(uses), kinds=kinds_ledger(uses),
        ages=age_ledger(site.views), nevers=gathered_nevers(site.views), exposures=exposure_ledger(uses),
        days=whole_days(uses),
        unsound=unsound(site, (shop.at.path,) if shop is not None else ()),
    )
    parts = (
        *(FinderPart("if-someone-is-hurt", "If someone is hurt", context.plain(line)) for line in accident[:1]),
        *(FinderPart(hazard.id, hazard.what.plain) for group in groups for hazard in group.hazards),
    )
    told = "What can hurt in this shop, what to wear, who is too young, and what to do when somebody is hurt."
    yield Page(WHOLE, "Staying whole", html, told, parts, shop.at.path if shop is not None else "")
