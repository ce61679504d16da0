"""Which pieces an apprentice grades otherwise than the master, and which way he errs."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass
from math import comb
from typing import Literal

from site_builder.formulas.errors import Impossible
from site_builder.formulas.guards import whole


@dataclass(frozen=True, slots=True)
class Leaning:
    """Pieces ``passed`` that the master holds for worse, pieces ``thrown`` that he holds for better.

    ``luck`` is how often so uneven a split or a more uneven one would come from a hand that errs both ways
    alike; 1 where nothing is graded otherwise.
    """

    passed: tuple[str, ...]
    thrown: tuple[str, ...]
    pieces: int
    luck: float

    @property
    def way(self) -> Literal["none", "lets bad ones pass", "throws good ones away", "both ways"]:
        """Which way the errors lie; both where they are as many."""
        if len(self.passed) == len(self.thrown):
            return "both ways" if self.passed else "none"
        return "lets bad ones pass" if len(self.passed) > len(self.thrown) else "throws good ones away"


def leaning(grades: Mapping[str, tuple[Hashable, Hashable]], worst_first: Sequence[Hashable]) -> Leaning:
    """Sort the disagreements; each piece's number maps to (master's grade, apprentice's grade).

    Raises ``Impossible`` for no pieces or a grade that is not among ``worst_first``.
    Source for the luck: as ``even_split``.
    """
    if not grades:
        raise Impossible("graded pieces", "count", 0, "must be at least one")
    rank = {grade: i for i, grade in enumerate(worst_first)}
    passed, thrown = [], []
    for piece, (master, apprentice) in grades.items():
        for grade in (master, apprentice):
            if grade not in rank:
                raise Impossible("grade", "", grade, f"must be one of {', '.join(map(str, worst_first))}")
        if rank[apprentice] > rank[master]:
            passed.append(piece)
        elif rank[apprentice] < rank[master]:
            thrown.append(piece)
    return Leaning(tuple(passed), tuple(thrown), len(grades), even_split(len(passed), len(thrown)))


def even_split(one: int, other: int) -> float:
    """How often luck alone splits so many so unevenly or more, either way: the exact sign test.

    Source: Q. McNemar, Psychometrika 12 (1947) 153, in its exact form; 1 for nothing to split.
    """
    whole("one side", one)
    whole("the other side", other)
    many, few = one + other, min(one, other)
    tail = sum(comb(many, k) for k in range(few + 1))
    return min(1.0, float(2 * tail / 2**many))
