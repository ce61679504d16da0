"""Rhythms, ends, waits and remedies in words, as one says them at the bench."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from markupsafe import Markup, escape

from site_builder.handbook.pages.readings import capital
from site_builder.handbook.pen import Pen
from site_builder.handbook.text import typeset
from site_builder.notebook.model.judging import ROUTES, End, Remedy, Trouble
from site_builder.notebook.model.leaves import Leaf
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.references import Target
from site_builder.quantity import (
    Ask,
    At,
    Cadence,
    Event,
    Every,
    Item,
    Moment,
    Quantity,
    Value,
    for_people,
    quantity_for_people,
    show_item,
)
from site_builder.quantity import When as WhenMoment

_AT = {
    "start": "at the start", "end": "at the end", "first": "the first piece", "last": "the last piece",
    "first and last": "the first piece and the last",
}
_WINS = {
    "first": "Whichever comes first.", "last": "Whichever comes last.", "clock": "The clock decides.",
    "count": "The count decides.", "sign": "The sign decides.", "feel": "The feel decides.",
    "check": "The test decides.", "state": "The reading decides.",
}
_THEN = {
    "next": "Then go on.", "again": "Then do this again.", "aside": "Lay it aside for a decision.",
    "stop": "The work rests until then.", "scrap": "It is scrap.", "none": "There is no way back.",
}


def how_often(pen: Pen, when: object) -> Markup:
    """A cadence, or a table of them, for reading; empty where nothing is told."""
    if isinstance(when, Leaf) and isinstance(when.value, Cadence):
        return Markup(", ").join(_item(pen, item) for item in when.value.items)
    if isinstance(when, Mapping):
        return Markup("; ").join(
            Markup("{}: {}").format(typeset(str(row)), how_often(pen, inside)) for row, inside in when.items()
        )
    return Markup("")


def _item(pen: Pen, item: Item) -> Markup:
    if isinstance(item, At):
        return escape(_AT[item.which])
    if isinstance(item, Every) and isinstance(item.amount, Quantity):
        return escape(f"every {'about ' if item.rough else ''}{quantity_for_people(item.amount)}")
    if isinstance(item, WhenMoment):
        return Markup("{} {}").format(item.side, _moment(pen, item.moment))
    if isinstance(item, Ask):
        return Markup("not yet told how often")
    return escape(typeset(show_item(item)))


def _moment(pen: Pen, moment: Moment) -> Markup:
    if isinstance(moment, Event):
        named = pen.book.survey.references.find(moment.name, ("procedure",))
        if named is not None:
            edge = f"the {moment.edge} of " if moment.edge else ""
            return Markup("{}{}").format(edge, pen.link("procedure", named.id))
        return escape(typeset(f"the {moment.edge} of {moment.name}" if moment.edge else moment.name))
    return escape(typeset(" ".join((str(moment.count.text if moment.count else "each"),
                                    " or ".join(moment.results), moment.noun))))


def value_words(pen: Pen, limit: Limit) -> Markup:
    """A limit in running words; a table by its rows."""
    if limit.written is not None:
        return pen.valued(limit.written)
    cells = [Markup("{}: {}").format(typeset(", ".join(map(str, rows))), pen.valued(cell.written))
             for rows, cell in limit.cells() if cell.written is not None]
    return Markup("; ").join(cells)


def end_words(pen: Pen, end: End) -> tuple[Markup, Markup]:
    """(when it ends, what then) of one end of something."""
    parts: list[Markup] = [value_words(pen, limit) for limit in (*end.count, *end.clock)]
    if end.sign is not None:
        parts.append(pen.words(end.sign))
    parts += [pen.words(check.good or check.do) for check in (*end.feel, *end.check) if check.good or check.do]
    parts += [Markup("{} {}").format(typeset(str(name)), value_words(pen, limit))
              for name, limits in end.state.items() for limit in limits]
    when = Markup(", or: ").join(part for part in parts if part)
    if len(parts) > 1 and end.wins is not None:
        when = Markup("{} {}").format(when if str(when).rstrip().endswith(".") else when + ".", _WINS[str(end.wins)])
    return Markup(capital(str(when))) if not str(when).startswith("<") else when, pen.words(end.do)


def ends_in_a_line(pen: Pen, ends: Iterable[End]) -> Markup:
    """When a thing is worn or stale, all its stages in one line."""
    return Markup(" ").join(end_words(pen, end)[0] for end in ends)


def remedy_words(pen: Pen, remedies: Iterable[Remedy | Trouble]) -> Markup:
    """What it means, what to do, and where to go on."""
    out: list[Markup] = []
    for remedy in remedies:
        told = [pen.words(text) for text in (remedy.means, remedy.do) if text]
        then = then_words(pen, remedy)
        out.append(Markup(" ").join([*told, *([then] if then else [])]))
    return Markup(" ").join(out)


def then_words(pen: Pen, remedy: Remedy | Trouble) -> Markup:
    """Where the work goes on after a remedy, if it does not just go on."""
    if remedy.then is None or remedy.then == "next":
        return Markup("")
    if remedy.then in ROUTES:
        return escape(_THEN[str(remedy.then)])
    target = pen.book.survey.references.find(str(remedy.then).partition("/")[0], ("procedure",))
    return Markup("Go on with {}.").format(pen.link(target.kind, target.id)) if isinstance(target, Target) else Markup("")


def duration_words(value: Value) -> str:
    """A time as one says it."""
    return for_people(value).main
