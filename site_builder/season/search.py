"""One search with the engine, on a thread of its own, so that who waits can stop it and keep the best so far."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from threading import Event, Thread
from typing import Any

from site_builder.season.engine import Effort, cp_sat, solver

_LOOK = 0.2
"""Seconds between two looks whether somebody has pressed Ctrl-C."""

Tell = Callable[[float, float], None]
"""Told of every better answer: its value, and the bound that none can be better than."""


class Answer(Enum):
    """What came of a search."""

    BEST = "proven best"
    FOUND = "found"
    NONE = "proven impossible"
    UNKNOWN = "not settled"


@dataclass(frozen=True, slots=True)
class Searched:
    """The answer, its value and the bound; ``values`` reads variables; ``stopped`` where somebody stopped it."""

    answer: Answer
    value: float
    bound: float
    solver: Any
    stopped: bool

    @property
    def has_one(self) -> bool:
        """Whether there is a plan."""
        return self.answer in (Answer.BEST, Answer.FOUND)


def nobody(_value: float, _bound: float) -> None:
    """Tells nobody."""


def search(model: Any, effort: Effort, tell: Tell = nobody) -> Searched:
    """Solve. Ctrl-C ends the search and not the program: what was found until then is the answer."""
    sat, engine = cp_sat(), solver(effort)
    engine.parameters.catch_sigint_signal = False

    class _Heard(sat.CpSolverSolutionCallback):  # type: ignore[misc, name-defined]
        def on_solution_callback(self) -> None:
            tell(self.objective_value, self.best_objective_bound)

    found: list[Any] = []
    failed: list[BaseException] = []

    def work() -> None:
        try:
            found.append(engine.solve(model, _Heard()))
        except BaseException as problem:
            failed.append(problem)
        finally:
            done.set()

    done = Event()  # and no `join`: a Thread whose join is interrupted is taken for ended by Python 3.11
    Thread(target=work, daemon=True).start()
    stopped = False
    while not done.is_set():
        try:
            done.wait(_LOOK)
        except KeyboardInterrupt:
            stopped = True
            engine.stop_search()
    if failed:
        raise failed[0]
    answer = {
        sat.OPTIMAL: Answer.BEST, sat.FEASIBLE: Answer.FOUND, sat.INFEASIBLE: Answer.NONE,
    }.get(found[0], Answer.UNKNOWN)
    has = answer in (Answer.BEST, Answer.FOUND)
    return Searched(answer, engine.objective_value if has else 0.0, engine.best_objective_bound, engine, stopped)
