"""Rhythms, moments, counts and spans as people say them."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from decimal import Decimal
from fractions import Fraction

from markupsafe import Markup, escape

from site_builder.handbook.filled import filled
from site_builder.handbook.text import typeset
from site_builder.quantity import (
    Ask,
    At,
    Cadence,
    Each,
    Event,
    Every,
    Full,
    InFirst,
    Item,
    Later,
    Limits,
    Moment,
    More,
    Outcome,
    Quantity,
    Range,
    Rate,
    Sample,
    Some,
    Stretch,
    Trend,
    Value,
    When,
    quantity_for_people,
    show_value,
)

Namer = Callable[[str], Markup]
"""What an event or a step is called, with its link."""

NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_LEADS = {"min": "at least", "max": "at most", "aim": "aim at"}
_LEAD = re.compile(r"(^|, |perhaps )(min|max|aim) ")
_TAGS = re.compile(r"(?:<[^>]*>)*")
_WORD = re.compile(r"[A-Z][^\s,.;:<]*")
_ENDS = (".", "!", "?", ":", "”", ".)", "?)")


def number(count: int) -> str:
    """``three``; figures beyond twelve."""
    return NUMBERS[count] if 0 <= count < len(NUMBERS) else str(count)


def listed(items: Iterable[str | Markup], last: str = "and") -> Markup:
    """``a, b and c``."""
    parts = [escape(item) for item in items]
    if len(parts) < 2:
        return parts[0] if parts else Markup("")
    return filled(" {} ", last).join([Markup(", ").join(parts[:-1]), parts[-1]])


def capital(text: str | Markup) -> Markup:
    """The first letter large; a text that begins with a link keeps its link."""
    safe = str(escape(text))
    at = 0
    if safe.startswith("<"):
        found = _TAGS.match(safe)
        at = found.end() if found else 0
    return Markup(safe[:at] + safe[at : at + 1].upper() + safe[at + 1 :])


def lowered(text: str | Markup, proper: frozenset[str] = frozenset()) -> Markup:
    """The first letter small, within a link too, for a sentence that goes on from ours; names and P80 stay.

    ``proper`` are the names.
    """
    safe = escape(text)
    tags = _TAGS.match(safe)
    at = tags.end() if tags is not None else 0
    word = _WORD.match(safe, at)
    if word is None:
        return safe
    first = word[0].replace("’s", "").rstrip("’")
    is_name = first in proper or first == "I" or first.startswith("I’") or not (first[1:].islower() or first == "A")
    return safe if is_name else Markup(safe[:at] + safe[at].lower() + safe[at + 1 :])


def sentence(text: str | Markup) -> Markup:
    """The text with a full stop, unless it ends with a mark of its own."""
    safe = str(escape(text)).rstrip()
    bare = Markup(safe).striptags() if "<" in safe or "&" in safe else safe
    return Markup(safe if not safe or bare.endswith(_ENDS) else f"{safe}.")


def spelt(text: str) -> str:
    """``at least 3 min`` for ``min 3 min``: the floor and the minute shall not be mistaken for each other."""
    return _LEAD.sub(lambda found: f"{found[1]}{_LEADS[found[2]]} ", text)


# --- rhythms and moments ------------------------------------------------------------------------------


def cadence(rhythm: Cadence, name: Namer) -> Markup:
    """``at the start, and every 40 pieces``."""
    return Markup("; ").join(_item(item, name) for item in rhythm.items)


def _item(item: Item, name: Namer) -> Markup:
    if isinstance(item, At):
        words = {"start": "at the start", "end": "at the end", "first": "the first", "last": "the last",
                 "first and last": "the first and the last"}[item.which]
    elif isinstance(item, Each):
        words = f"each {item.noun}"
    elif isinstance(item, Every):
        words = f"{'then ' if item.then else ''}{'about ' if item.rough else ''}every {_amount(item.amount)}"
    elif isinstance(item, Sample):
        of = f"each {item.noun}" if item.of is None else f"every {item.of.text} {item.noun}".rstrip()
        words = f"{item.count.text} of {of}"
    elif isinstance(item, InFirst):
        words = f"{item.count.text} in the first {_amount(item.amount)}"
    elif isinstance(item, Rate):
        words = f"{'then ' if item.then else ''}{item.count.text} in every {_amount(item.amount).removeprefix('1 ')}"
    elif isinstance(item, Stretch):
        words = f"in the {item.which} {quantity_for_people(item.duration)}"
    elif isinstance(item, Later):
        words = f"after {'about ' if item.rough else ''}{quantity_for_people(item.duration)}"
    elif isinstance(item, When):
        return filled("{}{} {}", "just " if item.just else "", item.side, moment(item.moment, name, bare=True))
    elif isinstance(item, Full):
        share = "" if item.share is None else f"{item.share.text}{' %' if item.percent else ''} of "
        words = typeset(f"{share}the full plan")
    elif isinstance(item, More):
        words = f"{item.count.text} more than planned"
    elif isinstance(item, Ask):
        words = "how often is not told yet"
    return escape(words)


def _amount(amount: Quantity | Some) -> str:
    return f"some {amount.unit.named(False)}" if isinstance(amount, Some) else quantity_for_people(amount)


def moment(when: Moment, name: Namer, *, bare: bool = False) -> Markup:
    """``the end of step 3``; ``bare`` says only ``step 3`` where no edge is written."""
    if isinstance(when, Outcome):
        count = "each" if when.count is None else when.count.text
        return escape(f"{count} {' or '.join(when.results)} {when.noun}")
    return escape(when.name) if not when.name else _event(when, name, bare)


def _event(event: Event, name: Namer, bare: bool) -> Markup:
    named = name(event.name.strip("[]"))
    if event.edge is None and (bare or "<a " not in named):
        return named
    return filled("the {} of {}", event.edge or "end", named)


def trend(change: Trend, name: Namer) -> Markup:
    """``falls 1 min for every 4 °C more of room temperature``; ``rises with humidity``."""
    if change.per is None:
        return filled("{} with {}", change.way, name(change.name))
    step = quantity_for_people(change.per).replace(" difference", "").replace("\u00a0difference", "")
    by = "" if change.change is None else f" {quantity_for_people(change.change)}"
    return filled("{}{} for every {} more of {}", change.way, by, step, name(change.name))


# --- counts and spans ---------------------------------------------------------------------------------


def how_often(value: Value) -> str:
    """``usually once, at most 5 times``, for the count of a loop."""
    what = value.what
    if isinstance(what, Limits):
        told = []
        for clause in what.clauses:
            figure = _count(clause.what)
            lead = {"about": "usually", "aim": "usually", "max": "at most", "under": "fewer than",
                    "min": "at least", "over": "more than"}[clause.lead]
            told.append(f"{lead} {figure}" if figure else f"how often {lead} is not told yet")
        first = next((n for n, one in enumerate(told) if one[-1].isdigit()), None)
        if first is not None:
            told[first] += " times"
        return ", ".join(told)
    figure = _count(what)
    return f"{figure}{' times' if figure[-1].isdigit() else ''}" if figure else show_value(value)


def _count(what: object) -> str:
    if isinstance(what, Range):
        return f"{_count(what.low)} to {_count(what.high)}".replace("once to", "1 to")
    if isinstance(what, Quantity):
        return "once" if what.parts[0].number.text == "1" else what.parts[0].number.text
    return ""


def span(seconds: Fraction) -> str:
    """A length of time, no finer than it can be meant: ``45 s``, ``20 min``, ``1 h 30 min``, ``22 h``."""
    minutes = seconds / 60
    if seconds < 90:
        return typeset(f"{round(seconds)} s")
    if minutes < 60:
        return typeset(f"{round(minutes)} min")
    if minutes < 600:
        hours, rest = divmod(round(minutes / 5) * 5, 60)
        return typeset(f"{hours} h {rest} min" if rest else f"{hours} h")
    return typeset(f"{round(minutes / 60)} h")


def days(count: Fraction) -> str:
    """``half a day``, ``three days``, ``two and a half days``: to the nearest half day."""
    whole, half = divmod(max(1, round(count * 2)), 2)
    if not whole:
        return "half a day"
    if not half:
        return f"{number(whole)} day{'' if whole == 1 else 's'}"
    return "a day and a half" if whole == 1 else f"{number(whole)} and a half days"


def digits(figure: Fraction, places: int | None = None) -> str:
    """A figure as decimal text: with so many places, or as short as four figures that matter allow."""
    if places is not None:
        return str((Decimal(figure.numerator) / Decimal(figure.denominator)).quantize(Decimal(1).scaleb(-places)))
    exact = Decimal(figure.numerator) / Decimal(figure.denominator)
    if exact == exact.to_integral_value():
        return str(exact.quantize(Decimal(1)))
    return format(Decimal(f"{float(figure):.4g}").normalize(), "f")


def joined_sentences(parts: Sequence[str | Markup]) -> Markup:
    """Several sentences one after the other, each with its full stop and a large first letter."""
    return Markup(" ").join(capital(sentence(part)) for part in parts if part)
