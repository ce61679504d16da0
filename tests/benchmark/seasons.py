"""``python -m tests.benchmark.seasons``: all published instances, the demo's season, and seasons that grow, with
what was proven."""

from __future__ import annotations

import time
from datetime import date
from pathlib import Path

from site_builder.analysis.analysis import analysis
from site_builder.plans.wanted import wants
from site_builder.season.by_the_hour import schedule
from site_builder.season.checker import check
from site_builder.season.engine import Effort
from site_builder.season.problem import Able, Hand, Link, Machine, Problem, Work, last_day
from site_builder.season.search import Answer
from site_builder.season.solve import Aim, quick, season
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


STEPS = 3.0
"""So many steps of the engine an instance gets, whatever the clock says: some ten seconds on a quiet machine."""
DEMO = Path(__file__).parents[2]


def _gap(end: int, bound: int) -> str:
    """How far the end found is from the bound: ``0%`` where it is proven, ``-`` where none was found."""
    return f"{(end - bound) / end:.0%}" if end > 0 else "-"


def instances(family: str = "") -> None:
    """The published instances, or those of a family: what was found, and how far from what is published."""
    print("instance                                 published  found  bound  gap  answer             s  cpu s")
    proven, all_of_it = 0, [one for one in published() if one.family.startswith(family)]
    for one in all_of_it:
        begin, cpu = time.perf_counter(), time.process_time()
        found = schedule(one.schedule, Effort(STEPS, 8))
        spent, cpu = time.perf_counter() - begin, time.process_time() - cpu
        wrong = broken(one.schedule, found) if found.starts else []
        told = "impossible" if one.makespan is None else str(one.makespan)
        print(f"{one.name:40} {told:>10} {found.end:6} {found.bound:6} {_gap(found.end, found.bound):>4}  "
              f"{found.answer.value:17} {spent:5.1f} {cpu:6.1f}"
              + (f"  BROKEN {wrong[0]}" if wrong else ""), flush=True)
        proven += found.answer in (Answer.BEST, Answer.NONE)
        if found.answer is Answer.BEST and found.end != one.makespan:
            raise SystemExit(f"{one.name}: proven {found.end}, published {told}")
    print(f"{proven} of {len(all_of_it)} proven, each within {STEPS} steps of the engine")


def growing(effort: float = 30.0) -> None:
    """Made-up seasons that grow: the first plan by the quick rule, then with a search."""
    print("works people months  how     bound  finish  gap  proven  broken      s  cpu s")
    for works, people, months in ((10, 4, 3), (20, 6, 6), (40, 12, 9)):
        problem = shop(works, people, months)
        for how, wished in (("quick", None), ("search", Effort(effort, 8))):
            if how == "search" and not effort:
                continue
            begin, cpu = time.perf_counter(), time.process_time()
            if wished is None:
                bound, plan = quick(problem)
                proven = plan is not None and last_day(plan) == bound
            else:
                made = season(problem, Aim(problem.days - 1, effort=wished))
                bound, plan, proven = made.bound, made.plan, made.proven
            spent, cpu = time.perf_counter() - begin, time.process_time() - cpu
            wrong = len(check(problem, plan)) if plan else -1
            finish = last_day(plan) if plan else -1
            print(f"{works:5} {people:6} {months:6}  {how:6} {bound!s:>6} {finish:7} {_gap(finish, bound or 0):>4} "
                  f"{proven!s:>7} {wrong:7} {spent:6.1f} {cpu:6.1f}", flush=True)


def demo() -> None:
    """The season of the demo shop: how long until it is known whether it can be in time."""
    begin, cpu = time.perf_counter(), time.process_time()
    wanted = wants(analysis(DEMO, date(2026, 11, 25)), "spring-2027")
    bound, plan = quick(wanted.problem)
    spent, cpu = time.perf_counter() - begin, time.process_time() - cpu
    in_time = plan is not None and last_day(plan) <= wanted.due
    print(f"the demo: {'yes' if in_time else 'not settled'}, day {last_day(plan or ())} of {wanted.due}, not before "
          f"day {bound}; {spent:.1f} s, {cpu:.1f} s of the processor")


if __name__ == "__main__":
    instances()
    demo()
    growing()
