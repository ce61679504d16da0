"""The glossary: what the shop calls things, and where each word is used."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.site import WORDS, Page, Site
from site_builder.views.anchors import token
from site_builder.views.glossary import word_uses
from site_builder.views.laid_down import laid_down
from site_builder.views.prose import NO_WORDS, Prose, capital, joined, listed, prose, say, sentence, toned
from site_builder.views.typeset import typeset

_FEW = 4
"""So many procedures are named at a word; more would say less."""


def word_pages(site: Site) -> Iterator[Page]:
    """One page for all words."""
    context = PageContext(site, WORDS)
    words = sorted(site.notebook.words.items(), key=lambda pair: pair[0].lower())
    uses = word_uses(site.analysis, _FEW)
    lede = prose("Every shop has its own. These are ours.") if words else say(
        "No word is written down yet. They stand under `words` in `procedures/shop.yml`; a word that stands there is "
        "explained wherever a page uses it.")
    html = pressed(
        "words.html.j2", context, lede=lede, unsound=unsound(site, ("procedures/shop.yml",)),
        words=[(token(word), capital(typeset(word)),
                joined((_meaning(context, meaning, site.notebook.synonyms[word], uses.get(word.lower(), ())),
                        _besides(context, word))))
               for word, meaning in words],
    )
    shop = site.notebook.shop
    html += pressed("laid_down.html.j2", context,
                    groups=laid_down(context.scope(shop), shop) if shop is not None else ())
    parts = tuple(Part(token(word), typeset(word), context.plain(meaning), "Word") for word, meaning in words)
    yield Page(WORDS, "Words", html, lede.plain, parts, "procedures/shop.yml")


def _besides(context: PageContext, word: str) -> Prose:
    """For which variant it is so called, why, and where it was told."""
    shop = context.book.notebook.shop
    entry = None if shop is None else next((one for name, one in shop.words.items() if str(name) == word), None)
    if shop is None or entry is None:
        return NO_WORDS
    scope = context.scope(shop)
    return joined((scope.only(entry).words, scope.inline_why(entry), *scope.tail(entry)))


def _meaning(context: PageContext, meaning: str, also: tuple[str, ...], used: tuple[str, ...]) -> Prose:
    told = sentence(context.words(meaning))
    if also:
        told = say("{} Also called {}.", told, listed(typeset(one) for one in also))
    if not used:
        return told
    links = listed(context.link("procedure", one) for one in used[:_FEW])
    more = " and elsewhere" if len(used) > _FEW else ""
    return say("{} {}", told, toned("used", say("Used in: {}{}.", links, more)))
