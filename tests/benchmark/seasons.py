"""``python -m tests.benchmark.seasons``: all published instances, and seasons that grow, with what was proven."""

from __future__ import annotations

import time

from site_builder.season.by_the_hour import Scheduled, schedule
from site_builder.season.checker import check
from site_builder.season.engine import Effort
from site_builder.season.problem import Able, Hand, Link, Machine, Problem, Work, last_day
from site_builder.season.search import Answer
from site_builder.season.solve import Aim, season
from tests.season.published import broken, published


def shop(works: int, people: int, months: int) -> Problem:
    """A made-up shop: lines of six works, each by three of the people, a machine for every fourth."""
    days = months * 30
    hours = tuple(6 * 3_600 if day % 7 < 5 else 0 for day in range(days))
    hands = tuple(Hand(f"p{n}", hours, tuple(h > 0 for h in hours)) for n in range(people))
    share = people * sum(hours) * 0.6 / works
    made = tuple(
        Work(f"w{n}", 200, 900, int(share / 200 * (0.7 + 0.6 * (n * 7 % 10) / 10)),
             able=tuple(Able(f"p{(n * 5 + k * 3) % people}") for k in range(3)),
             machines=(f"m{n // 4}",) if n % 4 == 0 else ())
        for n in range(works))
    links = tuple(Link(f"w{n}", f"w{n + 1}", 1, 14 if n % 5 == 0 else None) for n in range(works - 1) if n % 6 != 5)
    machines = tuple(Machine(f"m{n}", tuple(2 * h for h in hours)) for n in range(works // 4 + 1))
    return Problem(days, hands, machines, made, links)


STEPS = 10.0
"""So many steps of the engine an instance gets, whatever the clock says: some ten seconds on a quiet machine."""


def _gap(found: Scheduled) -> str:
    """How far the end found is from the bound: ``0%`` where it is proven, ``-`` where none was found."""
    return f"{(found.end - found.bound) / found.end:.0%}" if found.starts and found.end else "-"


def main() -> None:
    """Print both tables."""
    print("instance                                 published  found  bound  gap  answer             s")
    proven = 0
    for one in published():
        begin = time.perf_counter()
        found = schedule(one.schedule, Effort(STEPS, 8))
        spent = time.perf_counter() - begin
        wrong = broken(one.schedule, found) if found.starts else []
        told = "impossible" if one.makespan is None else str(one.makespan)
        print(f"{one.name:40} {told:>10} {found.end:6} {found.bound:6} {_gap(found):>4}  "
              f"{found.answer.value:17} {spent:5.1f}"
              + (f"  BROKEN {wrong[0]}" if wrong else ""), flush=True)
        proven += found.answer in (Answer.BEST, Answer.NONE)
        if found.answer is Answer.BEST and found.end != one.makespan:
            raise SystemExit(f"{one.name}: proven {found.end}, published {told}")
    print(f"{proven} of {len(published())} proven, each within {STEPS} steps of the engine")
    print("\nworks people months   bound  finish  proven  broken      s")
    for works, people, months in ((10, 4, 3), (20, 6, 6), (40, 12, 9)):
        problem = shop(works, people, months)
        begin = time.perf_counter()
        made = season(problem, Aim(problem.days - 1, effort=Effort(30, 8)), say=lambda _: None)
        spent = time.perf_counter() - begin
        wrong_rules = len(check(problem, made.plan)) if made.plan else -1
        finish = last_day(made.plan) if made.plan else None
        print(f"{works:5} {people:6} {months:6} {made.bound!s:>7} {finish!s:>7} {made.proven!s:>7} {wrong_rules:7} "
              f"{spent:6.1f}", flush=True)


if __name__ == "__main__":
    main()
