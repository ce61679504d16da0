"""Changes to the way of working: all of them, and a page for each with its figures and what they rest on."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.change_tests import result_told, shifts_told
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.site import CHANGES, UNWRITTEN, Page, Site
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.shop import Change
from site_builder.quantity import Ask, spelt
from site_builder.quantity.share import share
from site_builder.views.anchors import token
from site_builder.views.counts import number
from site_builder.views.docket import first_batch
from site_builder.views.prose import (
    NO_WORDS,
    Prose,
    Ref,
    Untold,
    capital,
    joined,
    linked,
    listed,
    prose,
    say,
    sentence,
    sentences,
)
from site_builder.views.rest import rest, whole
from site_builder.views.typeset import typeset

_ON_TRIAL = "on trial"
Side = tuple[Prose, str, float | None]
Figure = tuple[str, Prose, Side, Side]


def change_pages(site: Site) -> Iterator[Page]:
    """The list, then every change."""
    people_index = PeopleIndex(site)
    changes = sorted(site.notebook.changes.items(), key=lambda pair: _day(pair[1]), reverse=True)
    yield _index(PageContext(site, CHANGES), changes)
    for id_, change in changes:
        yield _sheet(people_index, id_, change)


def _day(change: Change) -> str:
    return change.date.value.last.isoformat() if change.date is not None else ""


def _index(context: PageContext, changes: list[tuple[str, Change]]) -> Page:
    count = len(changes)
    lede = say("{} to the way of working, each with its reason and what was counted before and after.",
        capital(f"{number(count)} change{'' if count == 1 else 's'}")
    ) if changes else say(
        "No change is written down yet. The next time the way of working changes, write what was before and what is "
        "since: `benchlore schema change` shows the keys.")
    rows = [
        [
            context.link("change", id_),
            context.date(change.date),
            _who(context, change),
            capital(_outcome(change)),
            joined(_covers(context, change), ", "),
        ]
        for id_, change in changes
    ]
    return Page(CHANGES, "Changes", pressed("changes.html.j2", context, lede=lede, rows=rows), lede.plain)


def _sheet(people_index: PeopleIndex, id_: str, change: Change) -> Page:
    book = people_index.book
    src_uri = book.addresses["change", id_]
    context = PageContext(book, src_uri)
    title = context.title("change", id_)
    lede = sentence(context.words(change.what))
    figures = [*_figures(context, change)]
    html = pressed(
        "change.html.j2", context,
        kicker=say("{}", linked("Changes", Ref("chapter", CHANGES))), title=title, lede=lede,
        unsound=unsound(book, (change.at.path,)), facts=[*_facts(context, change)],
        told=dict(_told(people_index, change)),
        shifts=[*shifts_told(people_index, context, change), *_besides(context, change)],
        because=[sentence(context.words(reason)) for reason in change.because], figures=figures,
        bars=any(side[2] is not None for figure in figures for side in figure[2:]),
        word=_outcome(change), note=context.words(change.note),
        evidence=listed(people_index.evidence(context, str(one)) for one in change.evidence),
    )
    parts = tuple(Part("before-and-after", f"{title}: {name}") for name in map(str, change.results))
    return Page(src_uri, title, html, context.plain(change.what), parts[:1], change.at.path)


def _facts(context: PageContext, change: Change) -> Iterator[tuple[str, Prose]]:
    if change.date is not None:
        yield "On", capital(context.date(change.date))
    if change.who is not None:
        yield "By", capital(_who(context, change))
    if change.covers:
        yield "At which work", capital(listed(_covers(context, change)))
    if change.source is not None:
        yield "Where from", capital(context.words(change.source))
    if change.told:
        yield "Told", joined(context.scope(change).heard(change))
    if change.answered:
        yield "Asked", joined(context.scope(change).answers(change))


def _who(context: PageContext, change: Change) -> Prose:
    return context.person(str(change.who)) if change.who is not None else NO_WORDS


def _covers(context: PageContext, change: Change) -> list[Prose]:
    return [context.any_link(str(one), ("procedure",)) for one in change.covers]


def _outcome(change: Change) -> str:
    return str(change.outcome or _ON_TRIAL)


def _figures(context: PageContext, change: Change) -> Iterator[Figure]:
    for name, result in change.results.items():
        yield (f"figure-{token(str(name))}", capital(typeset(str(name))),
               _side(context, result.old), _side(context, result.new))


def _told(people_index: PeopleIndex, change: Change) -> Iterator[tuple[str, str]]:
    """(id of a figure, what it means) where that can be told."""
    batch = first_batch(people_index.book.notebook)
    for name, result in change.results.items():
        told = result_told(people_index, str(name), result, change, batch)
        if told:
            yield f"figure-{token(str(name))}", told


def _side(context: PageContext, limits: tuple[Limit, ...]) -> Side:
    """A figure, in the other system too, and its share of the whole if it tells one."""
    leaf = limits[0].written if limits else None
    if leaf is None or isinstance(leaf.value.what, Ask):
        untold = Prose((Untold("not yet told", leaf.at),)) if leaf is not None else \
            linked("not yet told", Ref("chapter", UNWRITTEN))
        return untold, "", None
    main, other = context.value(leaf)
    part = share(leaf.value)
    return prose(spelt(main)), other, float(part) if part is not None else None


def _besides(context: PageContext, change: Change) -> Iterator[Prose]:
    """What is written of a figure besides its value, and of the figures after the first."""
    scope = context.scope(change)
    for name, result in change.results.items():
        lines = [say("{}: {}", lead, more) for lead, limits in (("Before", result.old), ("After", result.new))
                 for nth, limit in enumerate(limits)
                 if (more := whole(scope, limit) if nth else joined(
                     (scope.only(limit).words, rest(scope, limit, ("is_",)), scope.inline_why(limit),
                      *scope.tail(limit))))]
        lines += [more for more in (scope.only(result).words, scope.inline_why(result), *scope.tail(result)) if more]
        if lines:
            yield say("{}. {}", capital(typeset(str(name))), sentences(lines))
