"""What a batch takes, procedure by procedure: setting up, hands, waiting."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil

from site_builder.craft import guards

_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Work:
    """One procedure on the way of a batch; all times in seconds.

    ``setup`` once; ``each`` for each piece and each coat or spot on it; ``load`` for each load of ``load_size``
    pieces, a load that is not full like a full one; ``lot`` once for all pieces; ``wait`` nobody's work, once for
    each load, or once if there are no loads. ``hands`` are people at it. ``lost`` is the share of the pieces that
    does not pass on. Raises ``Impossible`` for times under 0, nobody at it, an empty load or a share that is none.
    """

    name: str
    setup: float = 0.0
    each: float = 0.0
    load: float = 0.0
    lot: float = 0.0
    wait: float = 0.0
    load_size: float | None = None
    hands: int = 1
    lost: float = 0.0

    def __post_init__(self) -> None:
        for what in ("setup", "each", "load", "lot", "wait"):
            guards.not_negative(f"{what} time of {self.name}", "s", getattr(self, what))
        if self.load_size is not None:
            guards.at_least(f"load of {self.name}", "pieces", self.load_size, 1, "least load")
        elif self.load:
            guards.above_zero(f"load of {self.name}", "pieces", 0)
        guards.whole(f"hands of {self.name}", self.hands, 1)
        guards.share(f"share lost in {self.name}", self.lost)


@dataclass(frozen=True, slots=True)
class Spent:
    """Seconds one procedure takes of a batch: ``setup`` and ``work`` are people's time, ``waiting`` is nobody's.

    ``pieces`` come into it, on average.
    """

    name: str
    pieces: float
    setup: float
    work: float
    waiting: float

    @property
    def hands_on(self) -> float:
        """People's seconds, setting up and working."""
        return self.setup + self.work


@dataclass(frozen=True, slots=True)
class BatchHours:
    """What a whole batch takes, in the order of the work."""

    steps: tuple[Spent, ...]

    @property
    def setup(self) -> float:
        """People's seconds of setting up."""
        return sum(step.setup for step in self.steps)

    @property
    def hands_on(self) -> float:
        """People's seconds in all, setting up included."""
        return sum(step.hands_on for step in self.steps)

    @property
    def waiting(self) -> float:
        """Seconds in which the batch stands, if one procedure waits for the other."""
        return sum(step.waiting for step in self.steps)


def batch_hours(works: Iterable[Work], started: float) -> BatchHours:
    """What ``started`` pieces take on their way through the procedures, one after another.

    What a procedure loses, the next does not work on. Raises ``Impossible`` for less than nothing started.
    Source: batch time, setting up plus pieces times cycle, with the non-operation time of each; Groover,
    Automation, Production Systems and Computer-Integrated Manufacturing, chapters 2 and 3.
    """
    pieces = guards.not_negative("pieces started", "", started)
    steps = []
    for work in works:
        loads = ceil(pieces / work.load_size - _ROUNDING) if work.load_size else 0
        own = work.each * pieces + work.load * loads + (work.lot if pieces else 0.0)
        setup = work.setup if pieces else 0.0
        waits = loads if work.load_size else (1 if pieces else 0)
        steps.append(Spent(work.name, pieces, setup * work.hands, own * work.hands, work.wait * waits))
        pieces *= 1 - work.lost
    return BatchHours(tuple(steps))


def costliest(steps: Sequence[Spent], count: int = 3) -> tuple[Spent, ...]:
    """The ``count`` procedures that take most of people's time, the greatest first; equal ones stay in order.

    Procedures that take none are left out. Raises ``Impossible`` for a count that is none.
    Source: Pareto order, common practice.
    """
    most = sorted((step for step in steps if step.hands_on), key=lambda step: -step.hands_on)
    return tuple(most[: guards.whole("count of procedures", count, 1)])


def weeks_of_work(seconds: float, hours_a_week: float = 40.0) -> float:
    """Working weeks of one pair of hands. Raises ``Impossible`` for time under 0 or a week without work.

    Source: common practice; 400 pieces at 15 to 20 minutes are two and a half to three and a half weeks.
    """
    hours = guards.above_zero("working week", "h", hours_a_week)
    return guards.not_negative("work", "s", seconds) / 3600 / hours
