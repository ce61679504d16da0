"""A page for each thing of a kind that has no page of its own making: all that is written, key by key."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.site import Page, Site
from site_builder.notebook.kinds import shelves
from site_builder.views.prose import joined
from site_builder.views.rest import rest
from site_builder.views.where_named import where_named


def plain_pages(site: Site) -> Iterator[Page]:
    """Kind by kind, in the order of the notebook."""
    for noun, shelf in shelves().items():
        for id_ in site.notebook.shelves.get(noun, {}) if shelf.address and not shelf.has_own_page else ():
            yield site.remember(noun, id_, partial(_page, noun=noun, id_=id_))


def _page(site: Site, noun: str, id_: str) -> Page:
    entry = site.notebook.shelves[noun][id_]
    context = PageContext(site, site.addresses[noun, id_])
    scope = context.scope(entry)
    title = context.title(noun, id_)
    said = [line for line in (rest(scope, entry, ("title", "name", noun)), *scope.tail(entry)) if line]
    html = pressed("plain.html.j2", context, title=title, kicker="", lede=joined(map(scope.words, entry.because)),
                   said=said, named=where_named(site.views, noun, id_), unsound=unsound(site, (entry.at.path,)))
    return Page(context.src_uri, title, html, said[0].plain if said else "", written_in=entry.at.path)
