"""The two sides of a value in words: from where on it is too little, right, too much."""

from __future__ import annotations

from dataclasses import dataclass

from site_builder.notebook.index import Place
from site_builder.notebook.model.parsed_values import Written
from site_builder.quantity import (
    Ask,
    Bounds,
    Clause,
    Fit,
    Limits,
    Measure,
    Number,
    Quantity,
    Range,
    Same,
    Some,
    Toleranced,
    Value,
    Word,
    bounds,
    references,
)
from site_builder.quantity.people import main_for_people
from site_builder.views.blocks import Ends
from site_builder.views.counts import digits
from site_builder.views.prose import NO_WORDS, Prose, capital, prose, say
from site_builder.views.scope import Scope
from site_builder.views.value import named_value, with_links

_DEPTH = 4  # a size taken from a size taken from a size; more is a circle or a riddle


@dataclass(frozen=True, slots=True)
class Sides:
    """What is accepted, and from where on it is too little or too much; empty where there is no such side."""

    low: Prose
    good: Prose
    high: Prose


def sides(scope: Scope, leaf: Written, place: Place, *, of_time: bool = False) -> Sides:
    """The words on the three parts of a gauge line."""
    found = figures(scope, leaf, place)
    value = leaf.value
    low = high = good = NO_WORDS
    before, after = ("Before", "After") if of_time else ("Below", "Above")
    little, much = ("how soon is too soon", "how late is too late") if of_time else \
        ("how little is too little", "how much is too much")
    low_asked, high_asked = asked_end(value, "low"), asked_end(value, "high")
    low_end, high_end = _end(scope, leaf, place, found, "low"), _end(scope, leaf, place, found, "high")
    if low_end:
        closed = found is None or found.low is None or found.low_in
        low = say("{} {}", before, low_end) if closed else say("{} or less", low_end)
    if high_end:
        closed = found is None or found.high is None or found.high_in
        high = say("{} {}", after, high_end) if closed else say("{} or more", high_end)
    same = _same(value)
    if same is not None:
        good = say("From {} on, {}", low_end, high_end) if low_end else capital(high_end)
        high = say("After that {}", same.period)
    elif low_end and high_end:
        good = _both(scope, leaf, found) or say("{} to {}", low_end, high_end)
    elif high_end:
        good = say("Below {}" if found is not None and not found.high_in else "Up to {}", high_end)
    elif low_end:
        good = say("Above {}" if found is not None and not found.low_in else "{} and more", low_end)
    if low_asked:
        low = capital(scope.untold(f"{little} is not told yet", leaf.at))
    if high_asked:
        high = capital(scope.untold(f"{much} is not told yet", leaf.at))
    return Sides(low, capital(good), high)


def ends_of(scope: Scope, leaf: Written | None, place: Place) -> Ends | None:
    """The figures of a value for a drawn line; None where it has neither a least nor a most."""
    if leaf is None:
        return None
    found = figures(scope, leaf, place)
    given = [_quantity_of(leaf.value, found, side) for side in ("low", "high")]
    what = leaf.value.what
    if (found is not None and not found.limited) or not any(given):
        return None
    clause = what.get("aim") if isinstance(what, Limits) else None
    aim = clause.what if clause is not None and isinstance(clause.what, Quantity) else None
    told = ["" if one is None else main_for_people(Value(one), scope.view.system) for one in (*given, aim)]
    units = {one.partition("\u00a0")[2] for one in told if one}
    return Ends(*(one.partition("\u00a0")[0] for one in told)) if len(units) == 1 else Ends(*told)


def asked_end(value: Value, side: str) -> bool:
    """Whether one end of a value is still to be asked; ``side`` is `low` or `high`."""
    clause = _clause(value, side)
    return clause is not None and isinstance(clause.what, Ask | Some)


def _same(value: Value) -> Same | None:
    what = value.what
    clause = what.get("max") if isinstance(what, Limits) else None
    return clause.what if clause is not None and isinstance(clause.what, Same) else None


def _end(scope: Scope, leaf: Written, place: Place, found: Bounds | None, side: str) -> Prose:
    """One end: the figure as written, or worked out, or in the words of the notebook."""
    clause = _clause(leaf.value, side)
    if asked_end(leaf.value, side):
        return NO_WORDS
    quantity = _quantity_of(leaf.value, found, side)
    about = "about " if clause is not None and clause.rough else ""
    if quantity is not None:
        return prose(about + main_for_people(Value(quantity), scope.view.system))
    if clause is None:
        return NO_WORDS
    told = main_for_people(Value(Limits((clause,))), scope.view.system).removeprefix(f"{clause.lead} ")
    return with_links(scope, told, [r.name for r in references(leaf.value)], place)


def _clause(value: Value, side: str) -> Clause | None:
    if not isinstance(value.what, Limits):
        return None
    if side == "low":
        return value.what.get("min") or value.what.get("over")
    return value.what.get("max") or value.what.get("under")


def _both(scope: Scope, leaf: Written, found: Bounds | None) -> Prose | None:
    """``41.9 to 42.3 mm``: the unit once."""
    ends = [_quantity_of(leaf.value, found, side) for side in ("low", "high")]
    what = leaf.value.what
    if ends[0] is None or ends[1] is None or (isinstance(what, Limits) and any(one.rough for one in what.clauses)):
        return None
    return prose(main_for_people(Value(Range(ends[0], ends[1])), scope.view.system))


def _quantity_of(value: Value, found: Bounds | None, side: str) -> Quantity | None:
    """One end as written, or worked out."""
    clause = _clause(value, side)
    if clause is not None and isinstance(clause.what, Quantity):
        return Quantity(clause.what.parts, clause.what.per)
    figure = None if found is None else found.low if side == "low" else found.high
    if found is None or figure is None:
        return None
    return Quantity((Measure(Number(digits(found.shown(figure), _places(value))), found.unit),))


def _places(value: Value) -> int | None:
    """Decimal places of a size with limits; None to let the figure decide."""
    what = value.what
    if isinstance(what, Toleranced):
        numbers = (what.nominal, what.upper, what.lower)
        return max(len(n.text.partition(".")[2]) for n in numbers) if all("/" not in n.text for n in numbers) else None
    return 3 if isinstance(what, Fit) else None


def figures(scope: Scope, leaf: Written, place: Place, depth: int = 0) -> Bounds | None:
    """The figures of a value; names in it are looked up and their figures taken."""
    names = [r.name for r in references(leaf.value)]
    if isinstance(leaf.value.what, Word):
        names = [leaf.value.what.text]
    given: dict[str, Bounds] = {}
    if depth < _DEPTH:
        for name in names:
            inner = _figures_of(scope, name, place, depth)
            if inner is not None:
                given[name] = inner
    return bounds(leaf.value, given)


def _figures_of(scope: Scope, name: str, place: Place, depth: int) -> Bounds | None:
    found = named_value(scope, name, place)
    if found is None:
        return None
    if found.written is not None:
        return figures(scope, found.written, scope.place(found.entry), depth + 1)
    if len(found.limits) != 1 or found.limits[0].written is None:
        return None
    return figures(scope, found.limits[0].written, scope.place(found.limits[0]), depth + 1)
