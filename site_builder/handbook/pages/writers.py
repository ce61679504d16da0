"""For writers: how the notebook is written. Every example is read by the reader when the page is made."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from markupsafe import Markup, escape

from site_builder.checks.rules import BY_CODE
from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.keys import FAMILIES, key_pages, keys_of, places
from site_builder.handbook.pages.names import names_sheet
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.writers_examples import (
    COMMANDS,
    FOLDERS,
    GROWING,
    REFERENCES,
    RHYTHMS,
    RIGHT,
    TEN_LINES,
    WRONG,
)
from site_builder.handbook.site import CATALOGUE, NAMES, TRUST, UNWRITTEN, WRITERS, Page, Site
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.quantity import NotationError, for_people, parse_cadence, parse_value, show_value
from site_builder.views.counts import spelt
from site_builder.views.prose import prose
from site_builder.views.rhythm import cadence

Row = tuple[Markup, Markup]


def writer_pages(site: Site) -> Iterator[Page]:
    """The guide, the pages of keys and the page of names."""
    yield _guide(site)
    yield from key_pages(site)
    yield names_sheet(site)


def _guide(site: Site) -> Page:
    context = PageContext(site, WRITERS)
    where = places()
    lede = Markup("This book is made from plain text files. Whoever can write a shopping list can write a procedure, "
                  "and the first useful one takes ten lines.")
    html = pressed(
        "writers.html.j2",
        lede=lede,
        unwritten=context.to(UNWRITTEN),
        catalogue=context.to(CATALOGUE),
        trust=context.to(TRUST),
        names=context.to(NAMES),
        ten_lines=TEN_LINES,
        growing=GROWING,
        folders=[*_told(context, FOLDERS)],
        kinds=[keys_of(context, kind, where, rings=2) for kind in (Procedure, Step)],
        families=[
            Markup('<a href="{}">{}</a>').format(context.to(family.src_uri), family.title) for family in FAMILIES
        ],
        right=[right_row(text) for text in RIGHT],
        wrong=[wrong_row(context, text) for text in WRONG],
        rhythms=[(_code(text), cadence(parse_cadence(text), prose).plain) for text in RHYTHMS],
        references=[*_told(context, REFERENCES)],
        commands=[*_told(context, COMMANDS)],
    )
    parts = (Part("ten-lines", "A procedure in ten lines"), Part("values", "How values are written"),
             Part("references", "Pointing at things"), Part("commands", "The commands"))
    return Page(WRITERS, "For writers", html, str(lede.striptags()), parts)


def right_row(text: str) -> Row:
    """A value and what a page makes of it. Raises NotationError if it cannot be read: the guide is wrong then."""
    shown = for_people(parse_value(text))
    other = Markup(' <span class="bl-also">{}</span>').format(spelt(shown.other)) if shown.other else Markup("")
    return _code(text), Markup("{}{}").format(spelt(shown.main), other)


def wrong_row(context: PageContext, text: str) -> Row:
    """A value that is refused, and what is said of it. Raises ValueError if it is none."""
    try:
        value = parse_value(text)
    except NotationError as refused:
        code = Markup('<a href="{}">{}</a>').format(context.to(CATALOGUE, refused.code), refused.code) \
            if refused.code in BY_CODE else escape(refused.code)
        return _code(text), Markup('{} <span class="bl-code">{}</span>').format(
            context.words(refused.message, glossary=False), code)
    raise ValueError(f"The guide calls `{text}` wrong, but it is read as `{show_value(value)}`.")


def _told(context: PageContext, rows: Iterable[tuple[str, str]]) -> Iterator[Row]:
    for written, says in rows:
        yield _code(written), context.words(says, glossary=False)


def _code(text: str) -> Markup:
    return Markup("<code>{}</code>").format(text)
