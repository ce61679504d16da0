"""For writers: how the notebook is written. Every example is read by the reader when the page is made."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

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
    TELLING,
    TEN_LINES,
    WRONG,
)
from site_builder.handbook.pages.writers_forms import FORMS
from site_builder.handbook.site import CATALOGUE, NAMES, THIRTY_YEARS, TRUST, UNWRITTEN, WRITERS, Page, Site
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.quantity import NotationError, for_people, parse_cadence, parse_value, show_value, spelt
from site_builder.views.prose import Prose, Ref, joined, linked, prose, say, toned
from site_builder.views.rhythm import cadence

Row = tuple[Prose, Prose]


def writer_pages(site: Site) -> Iterator[Page]:
    """The guide, the pages of keys and the page of names."""
    yield _guide(site)
    yield from key_pages(site)
    yield names_sheet(site)


def _guide(site: Site) -> Page:
    context = PageContext(site, WRITERS)
    where = places()
    lede = say("This book is made from plain text files. Whoever can write a shopping list can write a procedure, "
                  "and the first useful one takes ten lines.")
    html = pressed(
        "writers.html.j2", context,
        lede=lede,
        unwritten=context.to(UNWRITTEN),
        catalogue=context.to(CATALOGUE),
        trust=context.to(TRUST),
        thirty=context.to(THIRTY_YEARS),
        names=context.to(NAMES),
        ten_lines=TEN_LINES,
        growing=GROWING,
        telling=TELLING,
        folders=[*_told(context, FOLDERS)],
        kinds=[keys_of(context, kind, where, rings=2) for kind in (Procedure, Step)],
        families=[
            linked(family.title, Ref("chapter", family.src_uri)) for family in FAMILIES
        ],
        right=[right_row(text) for text in RIGHT],
        wrong=[wrong_row(context, text) for text in WRONG],
        rhythms=[(_code(text), cadence(parse_cadence(text), prose).plain) for text in RHYTHMS],
        forms=[(_code(f"{one.key}: {one.written}"), context.words(one.means, glossary=False)) for one in FORMS],
        references=[*_told(context, REFERENCES)],
        commands=[*_told(context, COMMANDS)],
    )
    parts = (Part("ten-lines", "A procedure in ten lines"), Part("values", "How values are written"),
             Part("references", "Pointing at things"), Part("tellings", "What was told"),
              Part("commands", "The commands"))
    return Page(WRITERS, "For writers", html, lede.plain, parts)


def right_row(text: str) -> Row:
    """A value and what a page makes of it. Raises NotationError if it cannot be read: the guide is wrong then."""
    shown = for_people(parse_value(text))
    other = toned("other units", spelt(shown.other))
    return _code(text), joined((spelt(shown.main), other))


def wrong_row(context: PageContext, text: str) -> Row:
    """A value that is refused, and what is said of it. Raises ValueError if it is none."""
    try:
        value = parse_value(text)
    except NotationError as refused:
        code = linked(refused.code, Ref("chapter", CATALOGUE, refused.code)) \
            if refused.code in BY_CODE else prose(refused.code)
        return _code(text), say("{} {}", context.words(refused.message, glossary=False), toned("rule", code))
    raise ValueError(f"The guide calls `{text}` wrong, but it is read as `{show_value(value)}`.")


def _told(context: PageContext, rows: Iterable[tuple[str, str]]) -> Iterator[Row]:
    for written, says in rows:
        yield _code(written), context.words(says, glossary=False)


def _code(text: str) -> Prose:
    return say("`{}`", text)
