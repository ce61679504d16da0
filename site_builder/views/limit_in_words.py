"""Limits inside sentences: what is told of a figure, at which conditions it holds, and who doubts it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from site_builder.notebook.model.limit import Limit, Table
from site_builder.notebook.model.parsed_values import Several
from site_builder.notebook.told_by import teller_of
from site_builder.notebook.tree import Text
from site_builder.quantity import spelt
from site_builder.views.dates import at_date
from site_builder.views.prose import Only, Prose, capital, joined, listed, meant, prose, say, sentence, unstopped
from site_builder.views.rest import all_but, rest
from site_builder.views.scope import Scope
from site_builder.views.typeset import typeset
from site_builder.views.value import limit_value, named_amounts, value_link

_TOLD = ("is_", "by", "given", "follows", "doubt", "said", "opens", "closes", "who", "date")
"""What stands in the sentence itself, or is told with the signs of a standing time."""
_SAID = ("is_", "by", "doubt", "said", "who", "date")
"""What stands beside the name of whoever says it."""


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
    more = unstopped(joined((_besides(scope, limit), *_of_the_table(scope, limit))))
    return scope.meant(limit, say("{} ({})", value, more) if more else value)


def _besides(scope: Scope, limit: Limit) -> Prose:
    return joined((scope.inline_why(limit), *shifted(scope, limit), *doubts(scope, limit), rest(scope, limit, _TOLD),
                   *scope.tail(limit)))


def _of_the_table(scope: Scope, limit: Limit) -> Iterator[Prose]:
    """What the rows of a table say besides their figures, and how it is read."""
    for rows, cell in limit.cells() if isinstance(limit.is_, Table) else ():
        more = _besides(scope, cell)
        if more:
            yield say("{}: {}", capital(typeset(", ".join(map(str, rows)))), scope.meant(cell, sentence(more)))
    for by in limit.by:
        more = joined((rest(scope, by, ("name", "take")), scope.inline_why(by), *scope.tail(by)))
        if more or by.for_:
            yield scope.meant(by, say("Read by {}: {}", by.name, more))


def value_in_words(scope: Scope, limit: Limit) -> Prose:
    """Its value alone; a table row by row: ``about 2 s for the deck pattern; 3 % at room temperature 12 to 18 °C``."""
    if not isinstance(limit.is_, Table):
        return limit_value(scope, limit).inline
    names = [str(by.name) for by in limit.by]
    return joined((_row(scope, names, rows, cell) for rows, cell in limit.is_.cells()), "; ")


def _row(scope: Scope, names: Sequence[str], rows: Sequence[str], cell: Limit) -> Prose:
    """One row: what the reader's choice leaves out is marked so."""
    figure = scope.meant(cell, limit_value(scope, cell).inline)
    pairs = [(name, str(row)) for name, row in zip(names, rows, strict=False)]
    if not pairs:
        return say("{} at {}", figure, ", ".join(spelt(typeset(str(row))) for row in rows))
    at = "for" if scope.is_variant(pairs[0][0]) else "at"
    said = say("{} {} {}", figure, at, joined((scope.variant(*one) for one in pairs), ", "))
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
    for nth, said in enumerate(limit.said):
        who = scope.view.person(str(said.who)) if said.who is not None else prose("Somebody")
        by_himself = teller_of(str(said.source or ""))[0] == str(said.who)
        told_so = said.with_changes(date=None, source=None if by_himself else said.source)  # both stand there already
        extra = [scope.inline_why(said), *scope.tail(told_so), *doubts(scope, said),
                 rest(scope, said, all_but(said, "opens", "closes") if limit.is_settled else _SAID)]
        if limit.is_settled:
            dated = f" {at_date(said.date)}" if said.date is not None else ""
            figure = told(scope, said.with_changes(because=(), note=None, source=None))
            settled = "Settled. " if nth == 0 else ""
            lines.append(say("{}{} had said {}{}. {}", settled, who, figure, dated,
                                joined(e for e in extra if e)))
        elif any(extra):
            lines.append(say("{}: {}", who, joined(e for e in extra if e)))
    return lines
