"""What a batch takes, procedure by procedure: setting up, hands, waiting."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from site_builder.formulas import guards
from site_builder.formulas.batch_time import NOTHING, WorkTime, batch_time
from site_builder.formulas.errors import Impossible


@dataclass(frozen=True, slots=True)
class Work:
    """One procedure on the way of a batch: how long it takes, with how many ``hands``, and what it loses.

    ``wait`` is seconds of nobody's work, once for each load, or once if there are no loads. ``lost`` is the share
    of the pieces that does not pass on. Raises ``Impossible`` for times under 0, a load that is not told or less
    than one piece, nobody at it, or a share that is none.
    """

    name: str
    time: WorkTime
    wait: Fraction = NOTHING
    hands: int = 1
    lost: Fraction = NOTHING

    def __post_init__(self) -> None:
        for what in ("setup", "each", "load", "lot"):
            guards.not_negative(f"{what} time of {self.name}", "s", getattr(self.time, what))
        guards.not_negative(f"wait of {self.name}", "s", self.wait)
        if self.time.load_size is not None:
            guards.at_least(f"load of {self.name}", "pieces", self.time.load_size, 1, "least load")
        elif self.time.load:
            raise Impossible(f"load of {self.name}", "pieces", "none", "must be told where a load has a time")
        guards.whole(f"hands of {self.name}", self.hands, 1)
        guards.share(f"share lost in {self.name}", self.lost)


@dataclass(frozen=True, slots=True)
class Spent:
    """Seconds one procedure takes of a batch: ``setup`` and ``work`` are people's time, ``waiting`` is nobody's.

    ``pieces`` come into it, on average. Two people at it for an hour are two hours.
    """

    name: str
    pieces: Fraction
    setup: Fraction
    work: Fraction
    waiting: Fraction

    @property
    def hands_on(self) -> Fraction:
        """People's seconds, setting up and working."""
        return self.setup + self.work


@dataclass(frozen=True, slots=True)
class BatchHours:
    """What a whole batch takes, in the order of the work."""

    steps: tuple[Spent, ...]

    @property
    def setup(self) -> Fraction:
        """People's seconds of setting up."""
        return sum((step.setup for step in self.steps), NOTHING)

    @property
    def hands_on(self) -> Fraction:
        """People's seconds in all, setting up included."""
        return sum((step.hands_on for step in self.steps), NOTHING)

    @property
    def waiting(self) -> Fraction:
        """Seconds in which the batch stands, if one procedure waits for the other."""
        return sum((step.waiting for step in self.steps), NOTHING)


def batch_hours(works: Iterable[Work], started: int | Fraction) -> BatchHours:
    """What ``started`` pieces take on their way through the procedures, one after another.

    What a procedure loses, the next does not work on; where nothing comes in, nothing is spent. Raises
    ``Impossible`` for less than nothing started. Source: batch time, setting up plus pieces times cycle, and the
    non-operation time of each; Groover, Automation, Production Systems and Computer-Integrated Manufacturing,
    chapter 2.
    """
    guards.within("pieces started", "count", started, 0, guards.MOST_PIECES)
    pieces = Fraction(started)
    steps = []
    for work in works:
        steps.append(_spent(work, pieces))
        pieces *= 1 - work.lost
    return BatchHours(tuple(steps))


def costliest(steps: Sequence[Spent], count: int = 3) -> tuple[Spent, ...]:
    """The ``count`` procedures that take most of people's time, the greatest first; equal ones stay in order.

    Procedures that take none are left out. Raises ``Impossible`` for a count that is none.
    Source: Pareto order, common practice.
    """
    most = sorted((step for step in steps if step.hands_on), key=lambda step: -step.hands_on)
    return tuple(most[: guards.whole("count of procedures", count, 1)])


def weeks_of_work(seconds: float | Fraction, hours_a_week: float = 40.0) -> float:
    """Working weeks of one pair of hands. Raises ``Impossible`` for time under 0 or a week without work.

    Source: common practice; 400 pieces at 15 to 20 minutes are two and a half to three and a half weeks.
    """
    hours = guards.above_zero("working week", "h", hours_a_week)
    return guards.not_negative("work", "s", seconds) / 3600 / hours


def _spent(work: Work, pieces: Fraction) -> Spent:
    whole = batch_time(work.time, pieces) if pieces else None
    if whole is None:
        return Spent(work.name, pieces, NOTHING, NOTHING, NOTHING)
    waits = ceil(pieces / work.time.load_size) if work.time.load_size else 1
    setup = work.time.setup * work.hands
    return Spent(work.name, pieces, setup, whole * work.hands - setup, work.wait * waits)
