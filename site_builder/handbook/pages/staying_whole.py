"""Staying whole: first aid, what kills, what can hurt place by place, who is too young; beside it the figures."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.finder import Part as FinderPart
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.site import WHOLE, WHOLE_FIGURES, Page, Site
from site_builder.views.prose import Ref, linked
from site_builder.views.shop_ages import age_ledger, exposure_ledger
from site_builder.views.shop_dangers import deadly
from site_builder.views.shop_days import whole_days
from site_builder.views.shop_harms import MEANINGS
from site_builder.views.shop_places import HarmPlace, harm_places
from site_builder.views.shop_wear import kinds_ledger, unprotected, wear_ledger


def whole_pages(site: Site) -> Iterator[Page]:
    """What everybody must know, and the figures behind it."""
    context = PageContext(site, WHOLE)
    uses = site.uses
    shop = site.notebook.shop
    accident = shop.accident if shop is not None else ()
    written_in = shop.at.path if shop is not None else ""
    broken = unsound(site, (written_in,) if written_in else ())
    places = harm_places(uses)
    words = {group.word for place in places for group in place.groups}
    figures = _figures(site, broken)
    html = pressed(
        "staying_whole.html.j2", context,
        accident=[site.views.words(line) for line in accident], places=places, deadly=deadly(site.views),
        meanings=[(word, meaning) for word, meaning in MEANINGS.items() if word in words],
        wear=wear_ledger(uses), bare=unprotected(uses), kinds=kinds_ledger(uses), ages=age_ledger(site.views),
        figures=context.to(WHOLE_FIGURES) if figures else "", unsound=broken,
    )
    told = "What can hurt in this shop, what to wear, who is too young, and what to do when somebody is hurt."
    yield Page(WHOLE, "Staying whole", html, told, (
        *(FinderPart("if-someone-is-hurt", "If someone is hurt", context.plain(line)) for line in accident[:1]),
        *_to_find(places),
    ), written_in)
    if figures:
        yield Page(WHOLE_FIGURES, _TITLE, figures, "What a full day of each work adds up to for ears, hands and back.",
                   (), written_in)


_TITLE = "Noise, vibration, lifting and air"


def _figures(site: Site, broken: object) -> str:
    """The page of the figures; empty where nothing of the kind is told."""
    context = PageContext(site, WHOLE_FIGURES)
    exposures, days = exposure_ledger(site.uses), whole_days(site.uses)
    if not exposures and not days:
        return ""
    return pressed("whole_figures.html.j2", context, kicker=linked("Staying whole", Ref("chapter", WHOLE)),
                   title=_TITLE, exposures=exposures, days=days, unsound=broken)


def _to_find(places: tuple[HarmPlace, ...]) -> Iterator[FinderPart]:
    """Each place, with what can hurt there."""
    for place in places:
        hurts = ", ".join(one.what.plain for group in place.groups for one in group.hazards)
        yield FinderPart(place.id, f"What can hurt: {place.title}", hurts, "Danger")
