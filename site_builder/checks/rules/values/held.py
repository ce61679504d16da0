"""What the rules on values share: worked out once for an analysis, and forgotten with it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar
from weakref import WeakKeyDictionary

from site_builder.analysis.analysis import Analysis
from site_builder.notebook.reckoning import Reckoning

T = TypeVar("T")


def once(work: Callable[[Analysis], T]) -> Callable[[Analysis], T]:
    """The same function, which remembers its answer for each analysis."""
    held: WeakKeyDictionary[Analysis, T] = WeakKeyDictionary()

    def remembered(analysis: Analysis) -> T:
        if analysis not in held:
            held[analysis] = work(analysis)
        return held[analysis]

    return remembered


@once
def reckoning(analysis: Analysis) -> Reckoning:
    """The one reckoning of this analysis, so that no figure is worked out twice."""
    return analysis.reckoning
