"""What the rules on values share: worked out once for a survey, and forgotten with it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar
from weakref import WeakKeyDictionary

from site_builder.checks.survey import Survey
from site_builder.notebook.reckoning import Reckoning

T = TypeVar("T")


def once(work: Callable[[Survey], T]) -> Callable[[Survey], T]:
    """The same function, which remembers its answer for each survey."""
    held: WeakKeyDictionary[Survey, T] = WeakKeyDictionary()

    def remembered(survey: Survey) -> T:
        if survey not in held:
            held[survey] = work(survey)
        return held[survey]

    return remembered


@once
def reckoning(survey: Survey) -> Reckoning:
    """The one reckoning of this survey, so that no figure is worked out twice."""
    return survey.reckoning
