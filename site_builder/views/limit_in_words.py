"""Limits inside sentences: what is told of a figure, at which conditions it holds, and who doubts it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from site_builder.notebook.model.limit import Limit, Table
from site_builder.notebook.model.parsed_values import Several
from site_builder.notebook.tree import Text
from site_builder.views.counts import spelt
from site_builder.views.dates import date_words
from site_builder.views.prose import Only, Prose, joined, listed, meant, prose, say, sentence, unstopped
from site_builder.views.rest import rest
from site_builder.views.scope import Scope
from site_builder.views.typeset import typeset
from site_builder.views.value import limit_value, named_amounts, value_link

_TOLD = ("is_", "by", "given", "follows", "doubt", "said", "opens", "closes", "who")
"""What stands in the sentence itself, or is told with the signs of a standing time."""


def states(scope: Scope, state: Mapping[Text, Several[Limit]]) -> list[Prose]:
    """``flatness of the sole at most 0.10 mm``, the name linked to where it is measured."""
    found = []
    for name, limits in state.items():
        for limit in limits:
            values = scope.references.values(str(name), scope.place(limit))
            shown = value_link(scope, str(name), values[0]) if values else scope.words(name)
            found.append(say("{} {}", shown, told(scope, limit)))
    return found


def told(scope: Scope, limit: Limit) -> Prose:
    """A limit inside a sentence, with its variant, reason and source."""
    value = value_in_words(scope, limit)
    besides = (*shifted(scope, limit), *doubts(scope, limit), rest(scope, limit, _TOLD))
    more = unstopped(joined((scope.inline_why(limit), *besides, *scope.tail(limit))))
    return scope.meant(limit, say("{} ({})", value, more) if more else value)


def value_in_words(scope: Scope, limit: Limit) -> Prose:
    """Its value alone; a table row by row: ``about 2 s for the deck pattern; 3 % at room temperature 12 to 18 °C``."""
    if not isinstance(limit.is_, Table):
        return limit_value(scope, limit).inline
    names = [str(by.name) for by in limit.by]
    return joined((_row(scope, names, rows, cell) for rows, cell in limit.is_.cells()), "; ")


def _row(scope: Scope, names: Sequence[str], rows: Sequence[str], cell: Limit) -> Prose:
    """One row: what the reader's choice leaves out is marked so."""
    pairs = [(name, str(row)) for name, row in zip(names, rows, strict=False)]
    if not pairs:
        return say("{} at {}", limit_value(scope, cell).inline, ", ".join(spelt(typeset(str(row))) for row in rows))
    at = "for" if scope.is_variant(pairs[0][0]) else "at"
    said = say("{} {} {}", limit_value(scope, cell).inline, at, joined((scope.variant(*one) for one in pairs), ", "))
    chosen = tuple((name, (row,)) for name, row in pairs if scope.is_variant(name))
    return meant(Only(values=chosen), said)


def shifted(scope: Scope, limit: Limit) -> list[Prose]:
    """At which conditions a figure holds, and how it moves away from them."""
    lines = []
    if limit.given:
        lines.append(say("Holds at {}.", named_amounts(scope, limit.given)))
    if limit.follows:
        trends = listed(map(scope.trend, limit.follows))
        lines.append(say("It {}.", trends))
    return lines


def doubts(scope: Scope, limit: Limit) -> list[Prose]:
    """Why a figure is not trusted, and what was said of it by whom."""
    lines = []
    if limit.doubt is not None:
        lines.append(say("In doubt: {}", sentence(scope.within(limit.doubt))))
    for said in limit.said:
        who = scope.view.person(str(said.who)) if said.who is not None else prose("Somebody")
        by_himself = str(said.source or "") == f"told by {said.who}"
        told_so = said.with_changes(date=None, source=None if by_himself else said.source)  # both stand there already
        extra = [scope.inline_why(said), *scope.tail(told_so), *doubts(scope, said)]
        if limit.is_ is not None:
            dated = f" on {date_words(said.date)}" if said.date is not None else ""
            figure = told(scope, said.with_changes(because=(), note=None, source=None))
            lines.append(say("Settled. {} had said {}{}. {}", who, figure, dated,
                                joined(e for e in extra if e)))
        elif any(extra):
            lines.append(say("{}: {}", who, joined(e for e in extra if e)))
    return lines
