"""Rhythms, moments and trends as people say them."""

from __future__ import annotations

import re
from collections.abc import Callable

from site_builder.quantity import (
    Ask,
    At,
    Cadence,
    Clock,
    Each,
    Event,
    Every,
    Full,
    InFirst,
    Item,
    Later,
    Moment,
    More,
    Outcome,
    Quantity,
    Rate,
    Sample,
    Some,
    Stretch,
    Trend,
    When,
    quantity_for_people,
)
from site_builder.views.prose import Linked, Prose, joined, prose, say
from site_builder.views.typeset import typeset

Namer = Callable[[str], Prose]
"""What an event or a step is called, with its link."""


def cadence(rhythm: Cadence, name: Namer) -> Prose:
    """``at the start, and every 40 pieces``."""
    return joined((_item(item, name) for item in rhythm.items), "; ")


def _item(item: Item, name: Namer) -> Prose:
    if isinstance(item, At):
        told = {"start": "at the start", "end": "at the end", "first": "the first", "last": "the last",
                 "first and last": "the first and the last"}[item.which]
    elif isinstance(item, Each):
        told = f"each {item.noun}"
    elif isinstance(item, Every):
        told = f"{'then ' if item.then else ''}{'about ' if item.rough else ''}every {_amount(item.amount)}"
    elif isinstance(item, Sample):
        of = f"each {item.noun}" if item.of is None else f"every {item.of.text} {item.noun}".rstrip()
        told = f"{item.count.text} of {of}"
    elif isinstance(item, InFirst):
        told = f"{item.count.text} in the first {_amount(item.amount)}"
    elif isinstance(item, Rate):
        told = f"{'then ' if item.then else ''}{item.count.text} in every {_amount(item.amount).removeprefix('1 ')}"
    elif isinstance(item, Stretch):
        told = f"in the {item.which} {quantity_for_people(item.duration)}"
    elif isinstance(item, Clock):
        told = f"at {item.hour}:{item.minute:02}"
    elif isinstance(item, Later):
        told = f"after {'about ' if item.rough else ''}{quantity_for_people(item.duration)}"
    elif isinstance(item, When):
        return say("{}{} {}", "just " if item.just else "", item.side, moment(item.moment, name, bare=True))
    elif isinstance(item, Full):
        share = "" if item.share is None else f"{item.share.text}{' %' if item.percent else ''} of "
        told = typeset(f"{share}the full plan")
    elif isinstance(item, More):
        told = f"{item.count.text} more than planned"
    elif isinstance(item, Ask):
        told = "how often is not told yet"
    return prose(told)


def _amount(amount: Quantity | Some) -> str:
    return f"some {amount.unit.named(False)}" if isinstance(amount, Some) else quantity_for_people(amount)


def moment(when: Moment, name: Namer, *, bare: bool = False) -> Prose:
    """``the end of step 3``; ``bare`` says only ``step 3`` where no edge is written."""
    if isinstance(when, Outcome):
        count = "each" if when.count is None else when.count.text
        return prose(f"{count} {' or '.join(when.results)} {when.noun}")
    return prose(when.name) if not when.name else _event(when, name, bare)


_PLACED = ("after", "as", "at", "before", "by", "during", "in", "on", "once", "when", "while")


def at_moment(said: Prose) -> Prose:
    """``at the end of step 3``; ``before the milk is warmed`` and ``by the calendar`` carry their own word."""
    return said if said.plain.partition(" ")[0].lower() in _PLACED else say("at {}", said)


_SAYS = re.compile(r"(?:it|they|he|she|one|you|we) |.* (?:is|are|has|have|was|begins?|starts?|stops?|goes|comes) ")


def counted_from(said: Prose) -> Prose:
    """``from the end of step 3``; ``from when it leaves the fire``, where a sentence tells the moment."""
    return say("when {}", said) if not any(isinstance(piece, Linked) for piece in said) and _SAYS.match(
        said.plain.lower() + " ") else said


def _event(event: Event, name: Namer, bare: bool) -> Prose:
    named = name(event.name.strip("[]"))
    if event.edge is None and (bare or not any(isinstance(piece, Linked) for piece in named)):
        return named
    return say("the {} of {}", event.edge or "end", named)


def trend(change: Trend, name: Namer) -> Prose:
    """``falls 1 min for every 4 °C more of room temperature``; ``rises with humidity``."""
    if change.per is None:
        return say("{} with {}", change.way, name(change.name))
    step = quantity_for_people(change.per).replace(" difference", "").replace("\u00a0difference", "")
    by = "" if change.change is None else f" {quantity_for_people(change.change)}"
    return say("{}{} for every {} more of {}", change.way, by, step, name(change.name))
