"""How the cost of one search grows with what is searched: only ratios within one process are compared."""

from __future__ import annotations

import gc
import re
import time
from collections.abc import Callable
from functools import cache
from typing import Any

from tests.patterns.found import Used
from tests.patterns.hard import Hard

FEW, MANY = 400, 1600
MOST = 9.0
"""Four times as much may cost four times as much; sixteen times is what a square would cost."""
_PLAIN = re.compile("[^b]")


def cost(do: Callable[[], object], turns: int = 1) -> float:
    """Time of this process's own processor, the least of some turns: others on the machine do not count."""
    found = []
    for _ in range(turns):
        begun = time.process_time()
        do()
        found.append(time.process_time() - begun)
    return min(found)


def tried(used: Used, method: str, hard: Hard, number: int) -> Callable[[], object]:
    """One search of the pattern through a hard input of so many turns."""
    text: Any = hard[0] + hard[1] * number + hard[2]
    if isinstance(used.pattern.pattern, bytes):
        text = text.encode("utf-8")
    if method in ("match", "fullmatch", "search"):
        return lambda: getattr(used.pattern, method)(text)
    return lambda: sum(1 for _ in used.pattern.finditer(text))


def explodes(used: Used, method: str, hard: Hard) -> bool:
    """Whether a few more turns multiply the cost."""
    return any(cost(tried(used, method, hard, number)) > 400 * plain_cost(100) for number in (12, 18, 24))


@cache
def plain_cost(number: int) -> float:
    """What it costs to find so many single letters one after the other."""
    text = "a" * number
    return max(1e-6, cost(lambda: sum(1 for _ in _PLAIN.finditer(text)), 5))


def grows_worse_than_linear(do: Callable[[int], Callable[[], object]], few: int = FEW, many: int = MANY) -> bool:
    """Whether four times the input costs clearly more than four times as much; seen three times running, or not."""
    gc.disable()
    try:
        for turns in (1, 3, 5):
            large = cost(do(many), turns)
            if large < 6 * plain_cost(many) or large / max(cost(do(few), turns), 1e-7) <= MOST * many / few / 4:
                return False
        return True
    finally:
        gc.enable()
