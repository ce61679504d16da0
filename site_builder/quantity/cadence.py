"""Cadences: how often something is done, or when."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from site_builder.quantity.moment import Moment, show_moment
from site_builder.quantity.show import show_quantity
from site_builder.quantity.value import Ask, Number, Quantity, Some


@dataclass(frozen=True, slots=True)
class At:
    """``start``, ``end``, ``first``, ``last``, ``first and last``."""

    which: Literal["start", "end", "first", "last", "first and last"]


@dataclass(frozen=True, slots=True)
class Each:
    """``each piece``, ``each shift``; the noun is free."""

    noun: str


@dataclass(frozen=True, slots=True)
class Every:
    """``every 10 pieces``, ``every about 20 min``, ``every some pieces``."""

    amount: Quantity | Some
    rough: bool = False
    then: bool = False
    """Only when what stands before is over: ``first 30 s, then every 1 min``."""


@dataclass(frozen=True, slots=True)
class Sample:
    """``3 of 50 pieces`` (noun "" where it was left out), ``2 of each load`` (``of`` is None)."""

    count: Number
    of: Number | None
    noun: str


@dataclass(frozen=True, slots=True)
class InFirst:
    """``2 in first 60 pieces``."""

    count: Number
    amount: Quantity | Some


@dataclass(frozen=True, slots=True)
class Rate:
    """``1 per 60 pieces``; with ``then`` only when what stands before is over."""

    count: Number
    amount: Quantity | Some
    then: bool = False


@dataclass(frozen=True, slots=True)
class Stretch:
    """``last 10 s``: the beginning or end of the step."""

    which: Literal["first", "last"]
    duration: Quantity


@dataclass(frozen=True, slots=True)
class Later:
    """``after 2 min``: counted from the beginning of the step it stands at."""

    duration: Quantity
    rough: bool = False


@dataclass(frozen=True, slots=True)
class Clock:
    """``18:00``: the hour of the day, of 24."""

    hour: int
    minute: int


@dataclass(frozen=True, slots=True)
class When:
    """``after each new belt``, ``before start of fill``, ``just before casting``."""

    side: Literal["before", "after", "during", "once"]
    moment: Moment
    just: bool = False


@dataclass(frozen=True, slots=True)
class Full:
    """``full``, ``1/3 of full``, ``50 % of full``: the plan that is being changed, or a share of it."""

    share: Number | None = None
    percent: bool = False


@dataclass(frozen=True, slots=True)
class More:
    """``4 more`` than the plan that is being changed."""

    count: Number


Item: TypeAlias = At | Each | Every | Sample | InFirst | Rate | Stretch | Later | Clock | When | Full | More | Ask


@dataclass(frozen=True, slots=True)
class Cadence:
    """All items, in the order written; each of them calls for the act."""

    items: tuple[Item, ...]


def _amount(amount: Quantity | Some) -> str:
    return show_quantity(amount) if isinstance(amount, Quantity) else f"some {amount.unit.named(False)}"


def show_item(item: Item) -> str:
    """One item as canonical text."""
    if isinstance(item, At):
        return item.which
    if isinstance(item, Each):
        return f"each {item.noun}"
    if isinstance(item, Every):
        return f"{'then ' if item.then else ''}every {'about ' if item.rough else ''}{_amount(item.amount)}"
    if isinstance(item, Sample):
        of = f"each {item.noun}" if item.of is None else f"{item.of.text} {item.noun}".rstrip()
        return f"{item.count.text} of {of}"
    if isinstance(item, InFirst):
        return f"{item.count.text} in first {_amount(item.amount)}"
    if isinstance(item, Rate):
        amount = _amount(item.amount).removeprefix("1 ")
        return f"{'then ' if item.then else ''}{item.count.text} per {amount}"
    if isinstance(item, Stretch):
        return f"{item.which} {show_quantity(item.duration)}"
    if isinstance(item, Later):
        return f"after {'about ' if item.rough else ''}{show_quantity(item.duration)}"
    if isinstance(item, Clock):
        return f"{item.hour}:{item.minute:02}"
    if isinstance(item, When):
        return f"{'just ' if item.just else ''}{item.side} {show_moment(item.moment)}"
    if isinstance(item, Full):
        percent = " %" if item.percent else ""
        return "full" if item.share is None else f"{item.share.text}{percent} of full"
    if isinstance(item, More):
        return f"{item.count.text} more"
    return "ask"


def show_cadence(cadence: Cadence) -> str:
    """The cadence as canonical text. ``parse_cadence`` reads it back equal."""
    return "; ".join(show_item(item) for item in cadence.items)
