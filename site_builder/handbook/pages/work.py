"""The map of the work, the same in words, and what several procedures share."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.drawings import mark_svg, work_map
from site_builder.handbook.finder import Part as FinderPart
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pages.work_graph import MOST_STOPS, lane, short_title, whole_graph
from site_builder.handbook.site import WORK, Page, Site
from site_builder.handbook.trusted import trusted
from site_builder.notebook.way import NO_PART, Ways, ways
from site_builder.views.counts import number
from site_builder.views.prose import NO_WORDS, Prose, capital, listed, lowered, prose, say, toned


def work_pages(site: Site) -> Iterator[Page]:
    """One sheet."""
    nb, route = site.notebook, site.analysis.route
    context = PageContext(site, WORK)
    all_ways = ways(nb, route)
    stops = sum(map(len, all_ways.values()))
    wide = narrow = words = ""
    if 0 < stops <= MOST_STOPS:
        drawn = work_map(whole_graph(context, all_ways))
        wide, narrow, words = drawn.wide, drawn.tall, drawn.words_html
    shared = route.shared(nb)
    html = pressed(
        "work.html.j2", context,
        lede=_lede(context, all_ways),
        wide=trusted(wide),
        narrow=trusted(narrow),
        words=trusted(words),
        ring=trusted(mark_svg(False)),
        diamond=trusted(mark_svg(True)),
        outside=any(p.where is not None for p in nb.procedures.values()),
        groups=[] if words else [_group(context, all_ways, part) for part in all_ways],
        parts=[
            _part(context, id_)
            for id_, part in nb.parts.items()
            if id_ not in all_ways and (part.supplier or not part.of)
        ],
        shared=[_shared(context, id_) for id_ in shared],
        unsound=unsound(site, (nb.shop.at.path,) if nb.shop is not None else ()),
    )
    parts = tuple(FinderPart(f"way-{part}", context.title("part", part)) for part in all_ways if part and not words)
    told = "The map of the work: every procedure, in the order in which it is done."
    written = nb.shop.at.path if nb.shop is not None else ""
    yield Page(WORK, "The work", html, told, parts, written)


def _lede(context: PageContext, all_ways: Ways) -> Prose:
    """How many parts run side by side, and what becomes of them."""
    nb = context.book.notebook
    products = [id_ for id_ in all_ways if id_ in nb.products]
    made = [id_ for id_ in all_ways if id_ != NO_PART and id_ not in nb.products]
    if not made or not products:
        return NO_WORDS
    wholes = listed(lowered(context.title("part", id_)) for id_ in products)
    if len(made) == 1:
        only = lowered(short_title(context, made[0]))
        return say("One part is made here: {}. It becomes the {}.", only, wholes)
    names = listed(lowered(short_title(context, id_)) for id_ in made)
    if len(made) > 8:
        return say("{} parts are made here. They come together as the {}.",
            capital(number(len(made))), wholes
        )
    return say("{} parts run side by side, {}, and come together as the {}.",
        capital(number(len(made))), names, wholes
    )


def _group(context: PageContext, all_ways: Ways, part: str) -> tuple[str, Prose, list[Prose]]:
    """A part and its procedures in order, for a shop too large for one map."""
    named = lane(context, part, only=len(all_ways) == 1)
    title = context.link("part", part) if part else say("{}", named.title)
    return f"way-{part or 'others'}", title, [_procedure(context, id_) for id_ in all_ways[part]]


def _procedure(context: PageContext, id_: str) -> Prose:
    where = context.book.notebook.procedures[id_].where
    outside = prose(" Done outside.") if where is not None else ""
    return say("{}{}", context.link("procedure", id_), outside)


def _part(context: PageContext, id_: str) -> Prose:
    part = context.book.notebook.parts[id_]
    supplier = say(", from {}", context.words(part.supplier)) if part.supplier else ""
    return say("{}{}", context.link("part", id_), supplier)


def _shared(context: PageContext, id_: str) -> Prose:
    """A shared procedure and who uses it."""
    users = dict.fromkeys(
        link.place.owner_id for link in context.book.analysis.references.used_in("procedure", id_) if link.key == "use"
    )
    used = listed(context.link("procedure", user) for user in users)
    return say("{} {}", context.link("procedure", id_), toned("at", say("for {}", used)))
