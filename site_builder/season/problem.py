"""What a season is planned from, in plain numbers: people, machines, work, and what must wait for what.

Days are counted from 0, every day of the calendar; time is whole seconds. Nothing here knows of a notebook.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

FULL_DOSE = 10_000_000
"""A day's whole allowance of noise, shaking or weight; works tell what part of it a second uses up."""


@dataclass(frozen=True, slots=True)
class Hand:
    """A person: ``seconds`` of work for orders on each day, and whether they are ``around`` on it at all."""

    id: str
    seconds: tuple[int, ...]
    around: tuple[bool, ...]


@dataclass(frozen=True, slots=True)
class Machine:
    """A machine, place or mould: so many ``seconds`` on each day, of all that there are of it together."""

    id: str
    seconds: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Able:
    """Somebody who may do a work from day ``first`` to day ``last``.

    ``teachers``: one of them must be around on the day; empty where the person may work alone.
    """

    person: str
    first: int = 0
    last: int = 1_000_000
    teachers: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Lots:
    """Work that goes out of the house: on which days it is taken in, the least and the most pieces of a lot."""

    days: frozenset[int]
    least: int = 0
    most: int | None = None


@dataclass(frozen=True, slots=True)
class Work:
    """One work on ``pieces`` pieces.

    Seconds: ``setup`` each day for each person who begins it, ``each`` for a piece, ``load_time`` for every begun
    load of ``load`` pieces. ``hands`` work at it at once: the first is one of ``able``, the others of ``helpers``; with
    0 hands it is nobody's time here. ``doses``: of each limit what part of ``FULL_DOSE`` a second of it uses up.
    It is done from day ``first`` to day ``last``.
    """

    id: str
    pieces: int
    setup: int = 0
    each: int = 0
    load_time: int = 0
    load: int | None = None
    hands: int = 1
    able: tuple[Able, ...] = ()
    helpers: tuple[str, ...] = ()
    machines: tuple[str, ...] = ()
    doses: Mapping[str, int] = field(default_factory=dict)
    lots: Lots | None = None
    first: int = 0
    last: int = 1_000_000


@dataclass(frozen=True, slots=True)
class Link:
    """``after`` takes what ``before`` has done, at least ``least`` days later and at most ``most``.

    ``there`` pieces for ``after`` are there from the beginning. ``whole``: it begins only when all of ``before`` is
    done. Pieces flow in proportion: what gets lost on the way is lost evenly. ``stands`` are
    the seconds between the two, at least and at most, where both are done on one day.
    """

    before: str
    after: str
    least: int = 1
    most: int | None = None
    there: int = 0
    whole: bool = False
    stands: tuple[int, int | None] = (0, None)


@dataclass(frozen=True, slots=True)
class Problem:
    """A season. All works must be done; ``days`` is how many days there are to do it in at most."""

    days: int
    hands: tuple[Hand, ...]
    machines: tuple[Machine, ...]
    works: tuple[Work, ...]
    links: tuple[Link, ...]

    def hand(self, id_: str) -> Hand:
        """The person of this id."""
        return next(one for one in self.hands if one.id == id_)

    def work(self, id_: str) -> Work:
        """The work of this id."""
        return next(one for one in self.works if one.id == id_)

    def until(self, day: int) -> Problem:
        """The same season, with no days after this one."""
        return replace(self, days=min(day + 1, self.days))

    def changed(self, work: Work) -> Problem:
        """The same season with this work in the place of the one of its id."""
        return replace(self, works=tuple(work if one.id == work.id else one for one in self.works))


@dataclass(frozen=True, slots=True, order=True)
class Stint:
    """What one person does of one work on one day. ``leads``: whether it is theirs, or they are the second pair."""

    day: int
    person: str
    work: str
    pieces: int
    seconds: int
    leads: bool = True


Plan = tuple[Stint, ...]


def last_day(plan: Plan) -> int:
    """The day on which the last of the work is done; -1 where there is none."""
    return max((stint.day for stint in plan), default=-1)
