"""Small seasons for tests, and the exhaustive search that they are held against: it shares nothing with the models."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import product
from random import Random

from site_builder.season.problem import FULL_DOSE, Able, Hand, Link, Lots, Machine, Problem, Work

HOUR = 3_600


def hand(id_: str, *hours: float) -> Hand:
    return Hand(id_, tuple(int(h * HOUR) for h in hours), tuple(h > 0 for h in hours))


def any_small(seed: int) -> Problem:
    """Up to 3 works, 2 people, 6 pieces, 5 days, with now and then a machine, a dose, a window, a second hand, lots."""
    chance = Random(seed)
    days = chance.randint(3, 5)
    hands = tuple(hand(id_, *(chance.choice([0, 2, 3, 4]) for _ in range(days))) for id_ in ("ada", "bo"))
    pieces = chance.randint(2, 6)
    works = []
    for number in range(chance.randint(1, 3)):
        able = chance.choice([("ada",), ("bo",), ("ada", "bo")])
        two = chance.random() < 0.2
        works.append(Work(
            f"w{number}", pieces if number else chance.randint(pieces, min(pieces + 1, 6)), chance.choice([0, 1800]),
            chance.choice([1800, 3600]), hands=2 if two else 1, helpers=("ada", "bo") if two else (),
            able=tuple(Able(one, teachers=("bo",) if one == "ada" and chance.random() < 0.3 else ()) for one in able),
            machines=("mill",) if chance.random() < 0.4 else (),
            doses={"noise": FULL_DOSE // 5400} if chance.random() < 0.3 else {},
            lots=Lots(frozenset(chance.sample(range(days), 2)), 2, 4) if chance.random() < 0.15 else None,
        ))
    links = tuple(
        Link(works[n].id, works[n + 1].id, least, chance.choice([None, None, least, least + 1]),
             whole=chance.random() < 0.15)
        for n in range(len(works) - 1) for least in (chance.choice([0, 1, 1, 2]),))
    mill = Machine("mill", tuple(3 * HOUR for _ in range(days)))
    return Problem(days, hands, (mill,), tuple(works), links)


def exhaustive(problem: Problem) -> int | None:
    """The first day on which all is done, by trying everything; None where nothing does it."""
    start = tuple((0,) * len(problem.works) for _ in range(1))
    states = {start}
    for day in range(problem.days):
        reached = set()
        for history in states:
            for made in _day(problem, day, history[-1]):
                then = (*history, made)
                if _flows(problem, day, then):
                    reached.add(then)
        whole = tuple(work.pieces for work in problem.works)
        if any(history[-1][:len(whole)] == whole for history in reached):
            return day
        states = reached
    return None


def _day(problem: Problem, day: int, done: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """Every way in which a day may go, as pieces done in all; a small lot that was sent counts up a last number."""
    number = len(problem.works)
    small = done[number] if len(done) > number else 0
    options = [list(_stint(problem, day, work, work.pieces - done[n])) for n, work in enumerate(problem.works)]
    seen = set()
    for chosen in product(*options):
        used = {one.id: 0 for one in problem.hands}
        machine = {one.id: 0 for one in problem.machines}
        dose: dict[str, Fraction] = {one.id: Fraction(0) for one in problem.hands}
        smalls = small
        for work, leads in zip(problem.works, chosen, strict=True):
            for person, pieces, helper in leads:
                seconds = work.setup + work.each * pieces
                used[person] += seconds
                for one in work.machines:
                    machine[one] += seconds
                part = work.doses.get("noise", 0)
                dose[person] += Fraction(work.each * pieces * part, FULL_DOSE)
                if helper:
                    used[helper] += seconds
                    dose[helper] += Fraction(seconds * part, FULL_DOSE)
            if work.lots is not None and leads:
                smalls += sum(pieces for _, pieces, _ in leads) < work.lots.least
        hours = all(used[one.id] <= one.seconds[day] for one in problem.hands)
        if not hours or smalls > 1 or any(part > 1 for part in dose.values()):
            continue
        if all(machine[one.id] <= one.seconds[day] for one in problem.machines):
            seen.add((*(done[n] + sum(p for _, p, _ in leads) for n, leads in enumerate(chosen)), smalls))
    yield from seen


Lead = tuple[str, int, str]


def _stint(problem: Problem, day: int, work: Work, left: int) -> Iterator[tuple[Lead, ...]]:
    """Who may do how many of a work on a day: (person, pieces, second pair of hands)."""
    yield ()
    if work.lots is not None and day not in work.lots.days:
        return
    around = {one.id: one.around[day] for one in problem.hands}
    able = [one.person for one in work.able if not one.teachers or any(around[t] for t in one.teachers)]
    for pieces in range(1, left + 1):
        if work.lots is not None and work.lots.most is not None and pieces > work.lots.most:
            break
        for person in able:
            if work.hands == 1:
                yield ((person, pieces, ""),)
            else:
                yield from (((person, pieces, helper),) for helper in work.helpers if helper != person)
        if work.hands == 1 and len(able) == 2 and work.lots is None:
            yield from (((able[0], first, ""), (able[1], pieces - first, "")) for first in range(1, pieces))


def _flows(problem: Problem, day: int, history: tuple[tuple[int, ...], ...]) -> bool:
    """Whether what was done by the end of a day had come, and nothing was left too long."""
    at = {work.id: n for n, work in enumerate(problem.works)}
    for link in problem.links:
        before, after = at[link.before], at[link.after]
        share = Fraction(problem.works[after].pieces, problem.works[before].pieces)
        came = history[day + 1 - link.least][before] if day + 1 >= link.least else 0
        if history[day + 1][after] > share * came:
            return False
        if link.whole and history[day + 1][after] > history[day][after] and came < problem.works[before].pieces:
            return False
        if link.most is not None and day >= link.most:
            made = history[day - link.most + 1][before]
            if share * made - history[day + 1][after] >= 1:
                return False
    return True
