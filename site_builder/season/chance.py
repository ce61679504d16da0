"""The plan played over with other luck: times and losses drawn anew, to see how often it holds.

A play follows the plan in its order: each work gets the hours that the plan gives it, day by day, and does in them what
its drawn time allows of what has come. What is left over is done on the working days after, by whoever had it.
Drawn with a fixed seed, so that it comes out the same.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import exp, log
from random import Random

from site_builder.season.problem import Link, Plan, Problem, Work
from site_builder.season.spans import in_order

SEED = 17
PLAYS = 1_000


@dataclass(frozen=True, slots=True)
class Luck:
    """How far things go off. ``spread`` of a work: the standard deviation of the logarithm of its time, 0.1 is about
    a tenth. ``scrap``: the share of its pieces that is lost. ``spare``: pieces of the last work that may be missing.
    ``illness``: the chance that a person falls ill once, and for how many days.
    """

    spread: Mapping[str, float] = field(default_factory=dict)
    usual_spread: float = 0.1
    scrap: Mapping[str, float] = field(default_factory=dict)
    spare: int = 0
    illness: tuple[float, int] = (0.0, 0)


@dataclass(frozen=True, slots=True)
class Played:
    """The days on which the last piece was done, in order; a play that did not end counts as the day after the last."""

    ends: tuple[int, ...]

    def in_time(self, due: int) -> float:
        """The share of plays done by a day."""
        return sum(end <= due for end in self.ends) / len(self.ends)

    def by(self, share: float) -> int:
        """The day by which this share of the plays is done."""
        return self.ends[min(int(share * len(self.ends)), len(self.ends) - 1)]


def play(problem: Problem, plan: Plan, luck: Luck, plays: int = PLAYS, seed: int = SEED) -> Played:
    """Play the plan so often. Raises ``Circle``."""
    chance, order = Random(seed), in_order(problem)
    hours = _hours(problem, plan)
    links: dict[str, list[Link]] = defaultdict(list)
    for link in problem.links:
        links[link.after].append(link)
    return Played(tuple(sorted(
        _one(problem, order, links, hours, luck, chance) for _ in range(plays))))


def _hours(problem: Problem, plan: Plan) -> Mapping[str, list[tuple[int, str, int]]]:
    """Of each work: day, person and pieces that the plan gives it."""
    found: dict[str, list[tuple[int, str, int]]] = {work.id: [] for work in problem.works}
    for stint in plan:
        if stint.leads:
            found[stint.work].append((stint.day, stint.person, stint.pieces))
    return found


def _one(
    problem: Problem, order: Sequence[Work], links: Mapping[str, list[Link]],
    hours: Mapping[str, list[tuple[int, str, int]]], luck: Luck, chance: Random,
) -> int:
    ill = _ill(problem, luck, chance)
    done: dict[str, list[float]] = {}
    finish = 0
    for work in order:
        spread = luck.spread.get(work.id, luck.usual_spread)
        slow = exp(chance.gauss(-spread * spread / 2, spread)) if spread else 1.0
        lost = _lost(work, luck, chance)
        goal = max(work.pieces * (1 + lost) - luck.spare, 0.0)
        came = _came(problem, work, links[work.id], done)
        made, total, pace = [0.0] * (problem.days + 1), 0.0, 0.0
        planned_on: dict[int, float] = defaultdict(float)
        for day, person, pieces in hours[work.id]:
            if not (person in ill and ill[person][0] <= day < ill[person][1]):
                planned_on[day] += pieces / slow
        counts = sorted(planned_on.values())
        pace = counts[len(counts) // 2] if counts else 0.0
        behind = max(planned_on, default=0)
        for day in range(problem.days):
            room = planned_on.get(day, 0.0)
            if day > behind and total < goal and _works(problem, work, day):
                room = pace  # what is left is done afterwards, as fast as before
            step = min(room, max(came[day] - total, 0.0), goal - total)
            total += max(step, 0.0)
            made[day] = total
            if goal - total < 0.5 and step > 0:
                finish = max(finish, day)
        if goal - total >= 0.5:
            return problem.days
        made[-1] = total
        done[work.id] = [value * work.pieces / goal if goal else value for value in made]
    return finish


def _came(problem: Problem, work: Work, links: Sequence[Link], done: Mapping[str, list[float]]) -> list[float]:
    """By each day, how many pieces have come from all that a work waits for; plenty where it waits for nothing."""
    came = [work.pieces * 2.0] * problem.days
    for link in links:
        before = problem.work(link.before)
        if before.pieces and work.pieces > link.there:
            share = (work.pieces - link.there) / before.pieces
            for day in range(problem.days):
                made = done[link.before][day - link.least] if day >= link.least else 0.0
                all_of_it = made >= before.pieces - 0.5
                came[day] = min(came[day], came[day] if all_of_it else link.there + share * made)
    return came


def _works(problem: Problem, work: Work, day: int) -> bool:
    return not work.hands or any(problem.hand(able.person).seconds[day] for able in work.able)


def _lost(work: Work, luck: Luck, chance: Random) -> float:
    """How much more than usual must be done: the difference of the drawn loss from the usual, by the normal curve."""
    scrap = luck.scrap.get(work.id, 0.0)
    if not scrap or not work.pieces:
        return 0.0
    return max(chance.gauss(0, (scrap * (1 - scrap) / work.pieces) ** 0.5), 0.0)


def _ill(problem: Problem, luck: Luck, chance: Random) -> Mapping[str, tuple[int, int]]:
    found = {}
    often, days = luck.illness
    for hand in problem.hands:
        if often and chance.random() < often:
            first = chance.randrange(problem.days)
            found[hand.id] = (first, first + days)
    return found


def spread_of(ratios: Sequence[float]) -> float | None:
    """The spread of times by what was observed: of ratios of true to planned time. None for fewer than three.

    Standard deviation of the logarithms, with one less than the count below (the usual sample formula).
    """
    logs = [log(ratio) for ratio in ratios if ratio > 0]
    if len(logs) < 3:
        return None
    mean = sum(logs) / len(logs)
    return float((sum((one - mean) ** 2 for one in logs) / (len(logs) - 1)) ** 0.5)
