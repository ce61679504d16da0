"""Values on the page of a procedure: written for people, their names linked, their two sides in words."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup, escape

from site_builder.handbook.pages import in_words
from site_builder.handbook.pages.procedure_scribe import Scribe, parts
from site_builder.handbook.theme import token
from site_builder.notebook.index import Place
from site_builder.notebook.model.leaves import Written
from site_builder.notebook.model.limit import Limit, Saying
from site_builder.notebook.names import NamedValue
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
    for_people,
    references,
)

_DEPTH = 4  # a size taken from a size taken from a size; more is a circle or a riddle


@dataclass(frozen=True, slots=True)
class Worth:
    """A value for people, with the other system of units, and lines on where its figure comes from."""

    main: Markup
    other: str = ""
    lines: tuple[Markup, ...] = ()

    @property
    def inline(self) -> Markup:
        """In one piece, the other system in brackets."""
        return Markup("{} {}").format(self.main, parts().also(self.other)) if self.other else self.main


def worth(scribe: Scribe, leaf: Written, place: Place) -> Worth:
    """A written value."""
    what = leaf.value.what
    if isinstance(what, Ask):
        return Worth(scribe.untold("not told yet", leaf.at))
    if isinstance(what, Word):
        found = _named(scribe, what.text, place)
        if found is None:
            return _doubted(scribe, leaf, Worth(in_words.lowered(scribe.words(what.text))))
        return _taken_over(scribe, leaf, what.text, found)
    shown = for_people(leaf.value, scribe.book.system)
    if isinstance(what, Some):
        return Worth(Markup("{} {}").format(shown.main, scribe.untold("how much is not told yet", leaf.at)))
    names = [r.name for r in references(leaf.value)]
    main = _linked(scribe, in_words.spelt(shown.main), names, place)
    for clause in what.clauses if isinstance(what, Limits) else ():
        if isinstance(clause.what, Ask):
            main = Markup("{} {}").format(main, scribe.untold("one side is asked for", leaf.at))
    return _doubted(scribe, leaf, Worth(main, in_words.spelt(shown.other) if not names else ""))


def _doubted(scribe: Scribe, leaf: Written, told: Worth) -> Worth:
    if not leaf.value.perhaps:
        return told
    return Worth(Markup("{} {}").format(told.main, scribe.untold("not sure", leaf.at)), told.other, told.lines)


def _taken_over(scribe: Scribe, leaf: Written, name: str, found: NamedValue) -> Worth:
    """A name alone takes that other value over whole: its figure stands here, its home is linked."""
    link = value_link(scribe, name, found)
    written = found.limits[0].written if found.limits else found.written
    if written is None or isinstance(written.value.what, Word | Ask):
        return _doubted(scribe, leaf, Worth(link))
    shown = for_people(written.value, scribe.book.system)
    line = Markup("The same as {}.").format(link)
    main = escape(in_words.spelt(shown.main))
    return _doubted(scribe, leaf, Worth(main, in_words.spelt(shown.other), (line,)))


def _named(scribe: Scribe, name: str, place: Place) -> NamedValue | None:
    found = scribe.references.values(name, place)
    return found[0] if found else None


def _linked(scribe: Scribe, text: str, names: list[str], place: Place) -> Markup:
    """The names in a value become links."""
    safe = escape(text)
    if not names:
        return safe
    links: dict[str, Markup] = {}
    for name in names:
        found = _named(scribe, name, place)
        if found is not None:
            links[str(escape(name))] = value_link(scribe, name, found)
    if not links:
        return safe
    pattern = "|".join(re.escape(name) for name in sorted(links, key=len, reverse=True))
    return Markup(re.sub(pattern, lambda hit: str(links[hit[0]]), str(safe)))


def value_link(scribe: Scribe, name: str, found: NamedValue) -> Markup:
    """``flatness of the sole``, ``pot life (Grey primer)``: a value by name, linked to where it is written."""
    last = name.rpartition("/")[2] if "/" in name else name
    href = _value_href(scribe, found)
    link = Markup('<a href="{}">{}</a>').format(href, last) if href else escape(last)
    if found.entry is scribe.own:
        return link
    owner = _owner(scribe, found)
    return Markup("{} ({})").format(link, owner) if owner else link


def _owner(scribe: Scribe, found: NamedValue) -> Markup | None:
    if found.kind == "procedure":
        title = scribe.pen.title("procedure", found.owner_id)
        step = f", {scribe.book.step_name(scribe.nb.procedures[found.owner_id], found.step)}" if found.step else ""
        return escape(f"{title}{step}")
    title = getattr(found.entry, "title", None)
    return escape(scribe.pen.plain(str(title))) if title else None


def _value_href(scribe: Scribe, found: NamedValue) -> str | None:
    if found.kind == "procedure":
        if found.entry is scribe.own:
            return f"#{value_anchor(scribe, found)}"
        anchor = scribe.book.anchor(found.step) if found.step is not None else ""
        return scribe.pen.href("procedure", found.owner_id, anchor)
    id_ = found.owner_id
    if found.kind == "part":
        id_ = next((p for p, part in scribe.nb.parts.items() if part is found.entry), "")
    return scribe.pen.href(found.kind, id_)


def value_anchor(scribe: Scribe, found: NamedValue) -> str:
    """The place on this page of one of its own values; of a time or a wait, its step."""
    step = scribe.book.anchor(found.step) if found.step is not None else "whole"
    if found.key in ("time", "wait") or any(found.name in c.settings for c in _checks(found)):
        return step if found.step is not None else "steps"
    return f"{step}-{token(found.name)}"


def _checks(found: NamedValue) -> list[object]:
    work = found.step or found.entry
    return [c for key in ("ready", "checks", "feel") for c in getattr(work, key, ())] if found.key == "settings" else []


def limit_worth(scribe: Scribe, limit: Limit) -> Worth:
    """The value of a limit that is no table: told, asked for, or disputed."""
    written = limit.written
    if written is not None:
        return worth(scribe, written, scribe.place(limit))
    if limit.said:
        sides = [(limit_worth(scribe, said).inline, _teller(scribe, said)) for said in limit.said]
        return Worth(Markup(parts().disputed(sides, scribe.question(limit.at))))
    return Worth(scribe.untold("not told yet", limit.at))


def _teller(scribe: Scribe, said: Saying) -> Markup:
    who = scribe.pen.person(str(said.who)) if said.who is not None else Markup("somebody")
    return Markup("{}, {}").format(who, scribe.pen.date(said.date)) if said.date is not None else who


def amount(scribe: Scribe, leaf: Written) -> Markup:
    """A value that is no limit of its own: an amount, a share, a time."""
    return worth(scribe, leaf, scribe.place(scribe.own)).inline


# --- the two sides ------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Sides:
    """What is accepted, and from where on it is too little or too much; empty where there is no such side."""

    low: Markup
    good: Markup
    high: Markup


def sides(scribe: Scribe, leaf: Written, place: Place, *, of_time: bool = False) -> Sides:
    """The words on the three parts of a gauge line."""
    found = figures(scribe, leaf, place)
    value = leaf.value
    low = high = good = Markup("")
    before, after = ("Before", "After") if of_time else ("Under", "Over")
    low_end, high_end = _end(scribe, leaf, place, found, "low"), _end(scribe, leaf, place, found, "high")
    if low_end:
        closed = found is None or found.low is None or found.low_in
        low = Markup("{} {}").format(before, low_end) if closed else Markup("{} or less").format(low_end)
    if high_end:
        closed = found is None or found.high is None or found.high_in
        high = Markup("{} {}").format(after, high_end) if closed else Markup("{} or more").format(high_end)
        if _same(value) is not None:
            high = Markup("Later than {}").format(high_end)
    if low_end and high_end:
        good = _both(scribe, leaf, found) or Markup("{} to {}").format(low_end, high_end)
    elif high_end:
        good = Markup("Under {}" if found is not None and not found.high_in else "Up to {}").format(high_end)
        good = in_words.capital(high_end) if _same(value) is not None else good
    elif low_end:
        good = Markup("Over {}" if found is not None and not found.low_in else "{} and more").format(low_end)
    return Sides(low, in_words.capital(good), high)


def _same(value: Value) -> Same | None:
    what = value.what
    clause = what.get("max") if isinstance(what, Limits) else None
    return clause.what if clause is not None and isinstance(clause.what, Same) else None


def _end(scribe: Scribe, leaf: Written, place: Place, found: Bounds | None, side: str) -> Markup:
    """One end: the figure as written, or worked out, or in the words of the notebook."""
    clause = _clause(leaf.value, side)
    if clause is not None and isinstance(clause.what, Ask):
        return scribe.untold("a figure that is not told yet", leaf.at)
    quantity = _quantity_of(leaf.value, found, side)
    if quantity is not None:
        return escape(for_people(Value(quantity), scribe.book.system).main)
    if clause is None:
        return Markup("")
    told = for_people(Value(Limits((clause,))), scribe.book.system).main.removeprefix(f"{clause.lead} ")
    return _linked(scribe, told, [r.name for r in references(leaf.value)], place)


def _clause(value: Value, side: str) -> Clause | None:
    if not isinstance(value.what, Limits):
        return None
    if side == "low":
        return value.what.get("min") or value.what.get("over")
    return value.what.get("max") or value.what.get("under")


def _both(scribe: Scribe, leaf: Written, found: Bounds | None) -> Markup | None:
    """``41.9 to 42.3 mm``: the unit once."""
    ends = [_quantity_of(leaf.value, found, side) for side in ("low", "high")]
    if ends[0] is None or ends[1] is None:
        return None
    return escape(for_people(Value(Range(ends[0], ends[1])), scribe.book.system).main)


def _quantity_of(value: Value, found: Bounds | None, side: str) -> Quantity | None:
    """One end as written, or worked out."""
    clause = _clause(value, side)
    if clause is not None and isinstance(clause.what, Quantity):
        return Quantity(clause.what.parts, clause.what.per)
    figure = None if found is None else found.low if side == "low" else found.high
    if found is None or figure is None:
        return None
    return Quantity((Measure(Number(in_words.digits(found.shown(figure), _places(value))), found.unit),))


def _places(value: Value) -> int | None:
    """Decimal places of a size with limits; None to let the figure decide."""
    what = value.what
    if isinstance(what, Toleranced):
        numbers = (what.nominal, what.upper, what.lower)
        return max(len(n.text.partition(".")[2]) for n in numbers) if all("/" not in n.text for n in numbers) else None
    return 3 if isinstance(what, Fit) else None


def figures(scribe: Scribe, leaf: Written, place: Place, depth: int = 0) -> Bounds | None:
    """The figures of a value; names in it are looked up and their figures taken."""
    names = [r.name for r in references(leaf.value)]
    if isinstance(leaf.value.what, Word):
        names = [leaf.value.what.text]
    given: dict[str, Bounds] = {}
    if depth < _DEPTH:
        for name in names:
            inner = _figures_of(scribe, name, place, depth)
            if inner is not None:
                given[name] = inner
    return bounds(leaf.value, given)


def _figures_of(scribe: Scribe, name: str, place: Place, depth: int) -> Bounds | None:
    found = _named(scribe, name, place)
    if found is None:
        return None
    if found.written is not None:
        return figures(scribe, found.written, scribe.place(found.entry), depth + 1)
    if len(found.limits) != 1 or found.limits[0].written is None:
        return None
    return figures(scribe, found.limits[0].written, scribe.place(found.limits[0]), depth + 1)


def named_amounts(scribe: Scribe, given: Mapping[str, Written]) -> Markup:
    """``room temperature 20 °C``, several with commas."""
    return in_words.listed(Markup("{} {}").format(name, amount(scribe, leaf)) for name, leaf in given.items())
