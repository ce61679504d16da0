"""The engine, Google OR-Tools: loaded only when something is solved, and set so that it answers the same twice."""

from __future__ import annotations

from dataclasses import dataclass
from importlib import import_module
from types import ModuleType
from typing import Any

SEED = 20_260_101
WORKERS = 8
"""Strategies taken in turn; with ``interleave_search`` their order does not hang on the machine's load."""


class EngineMissing(Exception):
    """The engine is not installed."""

    def __init__(self) -> None:
        super().__init__("planning needs OR-Tools; install it with `pip install 'benchlore[season]'`")


@dataclass(frozen=True, slots=True)
class Effort:
    """How long to search. ``steps`` is counted in work done (about seconds on one processor), not by the clock."""

    steps: float = 60.0
    workers: int = WORKERS
    seed: int = SEED


def _module(name: str) -> Any:
    try:
        found: ModuleType = import_module(name)
    except ImportError:
        raise EngineMissing from None
    return found


def cp_sat() -> Any:
    """The part that finds plans."""
    return _module("ortools.sat.python.cp_model")


def linear() -> Any:
    """The part that solves linear programs."""
    return _module("ortools.linear_solver.python.model_builder")


def version() -> str:
    """Which engine this is: ``OR-Tools 9.15.6755``."""
    return f"OR-Tools {_module('ortools').__version__}"


def solver(effort: Effort) -> Any:
    """A CP-SAT solver that gives the same answer every time on the same machine."""
    found = cp_sat().CpSolver()
    found.parameters.random_seed = effort.seed
    found.parameters.num_workers = effort.workers
    found.parameters.interleave_search = True
    found.parameters.max_deterministic_time = effort.steps
    return found
