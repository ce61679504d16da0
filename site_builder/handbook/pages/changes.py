"""Changes to the way of working: all of them, and a page for each with its figures and what they rest on."""

from __future__ import annotations

from collections.abc import Iterator

from markupsafe import Markup, escape

from site_builder.handbook.book import CHANGES, UNWRITTEN, Book, Sheet
from site_builder.handbook.finder import Part
from site_builder.handbook.pages.change_tests import result_told, shifts_told
from site_builder.handbook.pages.in_words import capital, listed, number, sentence, spelt
from site_builder.handbook.pages.press import pressed
from site_builder.handbook.pages.procedure_docket import first_batch
from site_builder.handbook.pages.readings import Fact
from site_builder.handbook.pages.roll import Roll
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pen import Pen
from site_builder.handbook.text import typeset
from site_builder.handbook.theme import token
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.shop import Change
from site_builder.quantity import Ask
from site_builder.quantity.share import share

_ON_TRIAL = "on trial"
Side = tuple[Markup, str, float | None]
Figure = tuple[str, Markup, Side, Side]


def change_sheets(book: Book) -> Iterator[Sheet]:
    """The list, then every change."""
    roll = Roll(book)
    changes = sorted(book.notebook.changes.items(), key=lambda pair: _day(pair[1]), reverse=True)
    yield _index(Pen(book, CHANGES), changes)
    for id_, change in changes:
        yield _sheet(roll, id_, change)


def _day(change: Change) -> str:
    return change.date.value.last.isoformat() if change.date is not None else ""


def _index(pen: Pen, changes: list[tuple[str, Change]]) -> Sheet:
    count = len(changes)
    lede = Markup("{} to the way of working, each with its reason and what was counted before and after.").format(
        capital(f"{number(count)} change{'' if count == 1 else 's'}")
    ) if changes else Markup(
        "No change is written down yet. The next time the way of working changes, write what was before and what is "
        "since: <code>benchlore schema change</code> shows the keys.")
    rows = [
        [pen.link("change", id_), Markup(pen.date(change.date)), _who(pen, change), capital(_outcome(change)),
         Markup(", ").join(_covers(pen, change))]
        for id_, change in changes
    ]
    return Sheet(CHANGES, "Changes", pressed("changes.html.j2", lede=lede, rows=rows), str(lede.striptags()))


def _sheet(roll: Roll, id_: str, change: Change) -> Sheet:
    book = roll.book
    src_uri = book.addresses["change", id_]
    pen = Pen(book, src_uri)
    title = pen.title("change", id_)
    lede = sentence(pen.words(change.what))
    figures = [*_figures(pen, change)]
    html = pressed(
        "change.html.j2",
        kicker=Markup('<a href="{}">Changes</a>').format(pen.to(CHANGES)), title=title, lede=lede,
        unsound=unsound(book, (change.at.path,)), facts=[*_facts(pen, change)],
        told=dict(_told(roll, change)), shifts=[*shifts_told(roll, pen, change)],
        because=[sentence(pen.words(reason)) for reason in change.because], figures=figures,
        bars=any(side[2] is not None for figure in figures for side in figure[2:]),
        word=_outcome(change), note=pen.words(change.note),
        evidence=listed(roll.evidence(pen, str(one)) for one in change.evidence),
    )
    parts = tuple(Part("before-and-after", f"{title}: {name}") for name in map(str, change.results))
    return Sheet(src_uri, title, html, pen.plain(change.what), parts[:1], change.at.path)


def _facts(pen: Pen, change: Change) -> Iterator[Fact]:
    if change.date is not None:
        yield Fact("On", words=Markup(pen.date(change.date)))
    if change.who is not None:
        yield Fact("By", words=_who(pen, change))
    if change.covers:
        yield Fact("At which work", words=listed(_covers(pen, change)))
    if change.source is not None:
        yield Fact("Where from", words=pen.words(change.source))


def _who(pen: Pen, change: Change) -> Markup:
    return pen.person(str(change.who)) if change.who is not None else Markup("")


def _covers(pen: Pen, change: Change) -> list[Markup]:
    return [pen.any_link(str(one), ("procedure",)) for one in change.covers]


def _outcome(change: Change) -> str:
    return str(change.outcome or _ON_TRIAL)


def _figures(pen: Pen, change: Change) -> Iterator[Figure]:
    for name, result in change.results.items():
        yield (f"figure-{token(str(name))}", capital(typeset(str(name))),
               _side(pen, result.old), _side(pen, result.new))


def _told(roll: Roll, change: Change) -> Iterator[tuple[str, str]]:
    """(id of a figure, what it means) where that can be told."""
    batch = first_batch(roll.book)
    for name, result in change.results.items():
        told = result_told(roll, str(name), result, change, batch)
        if told:
            yield f"figure-{token(str(name))}", told


def _side(pen: Pen, limits: tuple[Limit, ...]) -> Side:
    """A figure, in the other system too, and its share of the whole if it tells one."""
    leaf = limits[0].written if limits else None
    if leaf is None or isinstance(leaf.value.what, Ask):
        href = pen.question_href(leaf.at) if leaf is not None else pen.to(UNWRITTEN)
        return Markup('<a class="bl-untold" href="{}">not yet told</a>').format(href), "", None
    main, other = pen.value(leaf)
    part = share(leaf.value)
    return escape(spelt(main)), other, float(part) if part is not None else None
