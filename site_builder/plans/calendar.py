"""Whose day is how long: the shop's calendar, each person's own days and hours, absences, what is left for orders."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction

from site_builder.figures.batch_words import working_week
from site_builder.notebook.model.parsed_values import Dated, Written
from site_builder.notebook.model.people import Person
from site_builder.notebook.model.shop import Calendar
from site_builder.notebook.model.small import WEEKDAYS
from site_builder.quantity import bounds
from site_builder.season.problem import Hand

_QUARTER = 900
_WEEK = 7 * 86_400


@dataclass(frozen=True, slots=True)
class Days:
    """The days of a season: day 0 is ``first``; ``calendar`` is the shop's or the order's."""

    first: date
    count: int
    calendar: Calendar | None

    def on(self, day: int) -> date:
        """The date of a day."""
        return self.first + timedelta(days=day)

    def number(self, when: date) -> int:
        """The number of a date, which may lie outside."""
        return (when - self.first).days

    @property
    def shop_seconds(self) -> int:
        """How long the shop is open on a day."""
        a_day, _, _ = working_week(self.calendar)
        return int(a_day * 3_600)

    @property
    def usual(self) -> tuple[str, ...]:
        """The shop's working days."""
        told = tuple(map(str, self.calendar.days)) if self.calendar is not None else ()
        return told or WEEKDAYS[:5]

    def closed(self, when: date) -> bool:
        """Whether the shop is closed on a date, whatever day of the week it is."""
        return within(when, self.calendar.closed if self.calendar is not None else ())


def within(when: date, spans: Iterable[Dated]) -> bool:
    """Whether a date lies in one of these days and spans."""
    return any(span.value.first <= when <= span.value.last for span in spans)


@dataclass(frozen=True, slots=True)
class PersonDays:
    """The days of one person, and what was assumed of them."""

    hand: Hand
    assumed: tuple[str, ...]


def person_days(days: Days, id_: str, person: Person) -> PersonDays:
    """What is left of a person's week for orders, spread evenly over their own working days, in quarter hours."""
    name, assumed = str(person.name), []
    own = tuple(map(str, person.days)) or days.usual
    a_week = _share(person.hours)
    if a_week is None:
        a_week = Fraction(days.shop_seconds * len(own), _WEEK)
        assumed.append(f"The hours of {name} are not told: all the hours of the shop.")
    taken = sum((_share(one) or Fraction(0) for one in (person.learning, person.other)), Fraction(0))
    left = max(a_week - taken, Fraction(0)) * _WEEK / len(own)
    each = min(int(left), 86_400) // _QUARTER * _QUARTER
    in_shop = [_is_in(days, day, person, own) for day in range(days.count)]
    return PersonDays(Hand(id_, tuple(each if here else 0 for here in in_shop), tuple(in_shop)), tuple(assumed))


def _is_in(days: Days, day: int, person: Person, own: tuple[str, ...]) -> bool:
    when = days.on(day)
    if WEEKDAYS[when.weekday()] not in own or days.closed(when) or within(when, person.absent):
        return False
    after = person.joined is None or person.joined.value.first <= when
    return after and (person.left is None or when <= person.left.value.first)


def _share(leaf: Written | None) -> Fraction | None:
    """Hours a week as a share of the time there is; ``30 h`` are meant a week."""
    found = bounds(leaf.value) if leaf is not None else None
    if found is None or found.aim_low is None:
        return None
    return found.aim_low / _WEEK if found.kind == "time" else found.aim_low


def accompanied(hands: Iterable[Hand], young: Iterable[str]) -> tuple[Hand, ...]:
    """The same, but who is under age works only on days on which a grown person is in."""
    alone, young_ids = list(hands), frozenset(young)
    count = max((len(one.seconds) for one in alone), default=0)
    grown = [any(one.around[day] for one in alone if one.id not in young_ids) for day in range(count)]
    return tuple(
        Hand(one.id, tuple(s if grown[d] else 0 for d, s in enumerate(one.seconds)),
             tuple(a and grown[d] for d, a in enumerate(one.around))) if one.id in young_ids else one
        for one in alone)
