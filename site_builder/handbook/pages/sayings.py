"""Rhythms, ends and remedies of tools and materials, as one says them at the bench."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from markupsafe import Markup, escape

from site_builder.handbook.filled import filled
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.in_words import joined_sentences, lowered
from site_builder.handbook.pages.proper import proper_names
from site_builder.notebook.model.judging import ROUTES, End, Remedy, Trouble
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import ParsedValue, Written
from site_builder.quantity import Ask, Cadence
from site_builder.views.counts import spelt
from site_builder.views.prose import Prose, prose
from site_builder.views.rhythm import Namer, cadence
from site_builder.views.typeset import typeset

_WINS = {
    "first": ", whichever comes first", "last": ", whichever comes last", "clock": "; the clock decides",
    "count": "; the count decides", "sign": "; the sign decides", "feel": "; the feel decides",
    "check": "; the test decides", "state": "; the reading decides",
}
_THEN = {
    "again": "Then look again.", "aside": "Lay it aside for a decision.", "stop": "Do not work with it until then.",
    "scrap": "It is scrap.", "none": "There is no way back.",
}


def namer(context: PageContext) -> Namer:
    """An event is called by the title of its procedure where it is one."""

    def name(event: str) -> Prose:
        found = context.book.analysis.references.find(event, ("procedure",))
        return context.book.views.link("procedure", found.id) if found is not None else prose(typeset(event))

    return name


def how_often(context: PageContext, when: object) -> Markup:
    """A cadence, or a table of them, for reading; empty where nothing is told."""
    if isinstance(when, ParsedValue) and isinstance(when.value, Cadence):
        told = tuple(item for item in when.value.items if not isinstance(item, Ask))
        return context.said(cadence(Cadence(told), namer(context))) if told else Markup("")
    if isinstance(when, Mapping):
        return Markup("; ").join(
            Markup("{}: {}").format(typeset(str(row)), how_often(context, inside)) for row, inside in when.items()
        )
    return Markup("")


def valued(context: PageContext, leaf: Written | None) -> Markup:
    """A value in one piece, its floor and ceiling spelt out."""
    main, other = context.value(leaf)
    main, other = spelt(main), spelt(other)
    return Markup('{} <span class="bl-also">{}</span>').format(main, other) if other else escape(main)


def value_words(context: PageContext, limit: Limit) -> Markup:
    """A limit in running words; a table by its rows."""
    if limit.written is not None:
        return valued(context, limit.written)
    cells = [Markup("{}: {}").format(typeset(", ".join(map(str, rows))), valued(context, cell.written))
             for rows, cell in limit.cells() if cell.written is not None]
    return Markup("; ").join(cells)


def end_words(context: PageContext, end: End) -> tuple[Markup, Markup]:
    """(when it ends, what then) of one end of something: ``About 40 h, or when it hums, whichever comes first.``"""
    parts: list[Markup] = [value_words(context, limit) for limit in (*end.count, *end.clock)]
    signs = [context.words(sign) for sign in (end.sign, *(check.good or check.do for check in (*end.feel, *end.check)))
             if sign is not None]
    parts += [_when(context, sign) if at or parts else sign for at, sign in enumerate(signs)]
    parts += [Markup("{} {}").format(typeset(str(name)), value_words(context, limit))
              for name, limits in end.state.items() for limit in limits]
    joint = Markup(", and " if end.wins == "last" else ", or ")
    wins = _WINS[str(end.wins)] if end.wins is not None and len(parts) > 1 else ""
    return joined_sentences([joint.join(filter(None, parts)) + wins]), context.words(end.do)


def _when(context: PageContext, sign: Markup) -> Markup:
    """A sign that goes on from a figure."""
    bare = Markup(sign[:-1]) if sign.endswith(".") else sign
    return filled("when {}", lowered(bare, proper_names(context.book)))


def remedy_words(context: PageContext, remedies: Iterable[Remedy | Trouble]) -> Markup:
    """What it means, what to do, and where to go on."""
    said: list[Markup | str] = []
    for remedy in remedies:
        said += [context.words(remedy.means), context.words(remedy.do), _then(context, remedy)]
    return joined_sentences(said)


def _then(context: PageContext, remedy: Remedy | Trouble) -> Markup | str:
    """Where the work goes on after a remedy, if it does not just go on."""
    if remedy.then is None or remedy.then == "next":
        return ""
    if remedy.then in ROUTES:
        return _THEN[str(remedy.then)]
    target = context.book.analysis.references.find(str(remedy.then).partition("/")[0], ("procedure",))
    return Markup("Go on with {}").format(context.link("procedure", target.id)) if target is not None else ""


