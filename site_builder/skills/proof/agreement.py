"""How far two graders of the same numbered pieces agree beyond luck, and how far several do.

Raw agreement flatters when nearly all pieces are alike, and kappa is harsh then; the two are told together
(A. R. Feinstein and D. V. Cicchetti, J. Clin. Epidemiol. 43 (1990) 543).
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from math import sqrt
from typing import Literal

from site_builder.formulas.errors import Impossible
from site_builder.formulas.guards import not_negative, one_of, within
from site_builder.formulas.interval import Interval
from site_builder.skills.proof.chances import normal_quantile
from site_builder.skills.proof.demands import between
from site_builder.skills.proof.pieces import wilson

Table = Sequence[Sequence[float]]
"""Square; a row for each grade of the first grader, a column for each of the second. Counts of pieces."""

_NOISE = 1e-13

Weights = Literal["none", "linear", "quadratic"]


@dataclass(frozen=True, slots=True)
class Agreed:
    """How many of the pieces got the same grade from both, and limits of that share (Wilson)."""

    alike: int
    pieces: int
    limits: Interval

    @property
    def share(self) -> float:
        """Alike of all, 0 to 1."""
        return self.alike / self.pieces


@dataclass(frozen=True, slots=True)
class Kappa:
    """Agreement beyond luck: 1 is always, 0 no more than luck gives, less is worse than luck.

    ``limits`` follow from its standard ``error`` and the ``confidence``; ``error_by_luck`` is the standard error if
    all agreement were luck, ``sigmas`` how many of those the value lies from 0.
    """

    value: float
    error: float
    limits: Interval
    error_by_luck: float
    sigmas: float
    confidence: float


@dataclass(frozen=True, slots=True)
class ManyKappa:
    """Agreement of several graders beyond luck, its standard error if all were luck, and sigmas from 0."""

    value: float
    error_by_luck: float
    sigmas: float


def tally(first: Sequence[Hashable], second: Sequence[Hashable], grades: Sequence[Hashable]) -> list[list[int]]:
    """The table of two graders who graded the same pieces in the same order.

    Raises ``Impossible`` for rows of two lengths or a grade that is not among ``grades``.
    Source: the table every textbook of agreement begins with.
    """
    if len(first) != len(second):
        raise Impossible("grades of the second grader", "count", len(second), f"must be as many, {len(first)}")
    place = {grade: i for i, grade in enumerate(grades)}
    table = [[0] * len(grades) for _ in grades]
    for one, other in zip(first, second, strict=True):
        for grade in (one, other):
            if grade not in place:
                raise Impossible("grade", "", grade, f"must be one of {', '.join(map(str, grades))}")
        table[place[one]][place[other]] += 1
    return table


def agreed(table: Table, confidence: float = 0.95) -> Agreed:
    """The share of pieces with the same grade from both.

    Raises ``Impossible`` for no pieces. Source: raw agreement; its limits by E. B. Wilson (1927).
    """
    pieces = _square(table)
    alike = sum(row[i] for i, row in enumerate(table))
    return Agreed(int(alike), int(pieces), wilson(int(alike), int(pieces), confidence))


def cohen_kappa(table: Table, weights: Weights | Table = "none", confidence: float = 0.95) -> Kappa | None:
    """Cohen's kappa, plain, or weighted for ordered grades; None where both gave all pieces one grade.

    ``linear`` counts a disagreement by how many grades apart, ``quadratic`` by the square of it; a table gives
    each disagreement a weight of its own (0 for agreement). Grades nobody gave widen the scale if they are in
    the table, and change weighted values: leave them out where they do not belong to the scale.
    Raises ``Impossible`` for a table that is not square, empty or negative.
    Source: J. Cohen, Psychol. Bull. 70 (1968) 213; errors by J. L. Fleiss, J. Cohen, B. S. Everitt, Psychol.
    Bull. 72 (1969) 323.
    """
    pieces = _square(table)
    z = normal_quantile((1 + between("confidence", confidence)) / 2)
    size = range(len(table))
    near = _nearness(len(table), weights)
    share = [[table[i][j] / pieces for j in size] for i in size]
    rows = [sum(share[i]) for i in size]
    columns = [sum(share[i][j] for i in size) for j in size]
    seen = sum(near[i][j] * share[i][j] for i in size for j in size)
    luck = sum(near[i][j] * rows[i] * columns[j] for i in size for j in size)
    if 1 - luck < 1e-12:
        return None
    of_row = [sum(near[i][j] * columns[j] for j in size) for i in size]
    of_column = [sum(near[i][j] * rows[i] for i in size) for j in size]
    spread = (
        sum(
            share[i][j] * (near[i][j] * (1 - luck) - (of_row[i] + of_column[j]) * (1 - seen)) ** 2
            for i in size
            for j in size
        )
        - (seen * luck - 2 * luck + seen) ** 2
    )
    by_luck = (
        sum(rows[i] * columns[j] * (near[i][j] - of_row[i] - of_column[j]) ** 2 for i in size for j in size) - luck**2
    )
    value = (seen - luck) / (1 - luck)
    error = sqrt(_above_noise(spread) / pieces) / (1 - luck) ** 2
    error_by_luck = sqrt(_above_noise(by_luck) / pieces) / (1 - luck)
    limits = Interval(max(-1.0, value - z * error), min(1.0, value + z * error))
    return Kappa(value, error, limits, error_by_luck, value / error_by_luck if error_by_luck else 0.0, confidence)


def fleiss_kappa(counts: Table) -> ManyKappa | None:
    """Fleiss' kappa for several graders: a row a piece, a column a grade, how many graders gave it.

    Every piece has the same number of graders, two or more; they need not be the same people. None where all
    gave all pieces one grade. Raises ``Impossible`` otherwise.
    Source: J. L. Fleiss, Psychol. Bull. 76 (1971) 378; the error by luck as J. L. Fleiss, J. C. M. Nee,
    J. R. Landis, Psychol. Bull. 86 (1979) 974, corrected it.
    """
    _counts(counts)
    if not counts or not counts[0] or any(len(row) != len(counts[0]) or min(row) < 0 for row in counts):
        raise Impossible("counts", "", "a ragged, empty or negative table", "must hold a row a piece")
    graders = sum(counts[0])
    if graders < 2 or any(sum(row) != graders for row in counts):
        raise Impossible("graders of a piece", "count", graders, "must be the same for each piece, 2 or more")
    pieces = len(counts)
    shares = [sum(row[j] for row in counts) / (pieces * graders) for j in range(len(counts[0]))]
    alike = sum(n * (n - 1) for row in counts for n in row) / (pieces * graders * (graders - 1))
    luck = sum(p * p for p in shares)
    if 1 - luck < 1e-12:
        return None
    spread = sum(p * (1 - p) for p in shares)
    skew = sum(p * (1 - p) * (1 - 2 * p) for p in shares)
    error = sqrt(2 * (spread**2 - skew) / (pieces * graders * (graders - 1))) / spread
    value = (alike - luck) / (1 - luck)
    return ManyKappa(value, error, value / error)


BANDS = ((0.0, "poor"), (0.2, "slight"), (0.4, "fair"), (0.6, "moderate"), (0.8, "substantial"))


def strength(kappa: float) -> str:
    """The usual word for a kappa; a convention, not a test.

    Reprints leave gaps between the bands and differ at exactly 0; here each band runs up to its last figure
    and 0 is slight. Raises ``Impossible`` for what is no kappa.
    Source: J. R. Landis and G. G. Koch, Biometrics 33 (1977) 159.
    """
    within("kappa", "", kappa, -1, 1)
    if kappa < 0:
        return "poor"
    return next((word for end, word in BANDS[1:] if kappa <= end), "almost perfect")


def _above_noise(spread: float) -> float:
    """A difference of sums that is nothing but the machine's last digits is nothing: its root would not be small."""
    return spread if spread > _NOISE else 0.0


def _counts(table: Table) -> None:
    for row in table:
        for count in row:
            not_negative("count of pieces", "count", count)


def _square(table: Table) -> float:
    _counts(table)
    if len(table) < 2 or any(len(row) != len(table) or min(row) < 0 for row in table):
        raise Impossible("table of grades", "", "another", "must be square, two grades or more, nothing negative")
    pieces = sum(map(sum, table))
    if not pieces > 0:
        raise Impossible("graded pieces", "count", 0, "must be at least one")
    return pieces


def _nearness(size: int, weights: Weights | Table) -> list[list[float]]:
    """1 for agreement, 0 for the worst disagreement."""
    if isinstance(weights, str):
        one_of("weights", weights, ("none", "linear", "quadratic"))
    if weights == "none":
        apart = [[float(i != j) for j in range(size)] for i in range(size)]
    elif weights in ("linear", "quadratic"):
        power = 1 if weights == "linear" else 2
        apart = [[float(abs(i - j)) ** power for j in range(size)] for i in range(size)]
    else:
        apart = [[float(not_negative("weight", "", w)) for w in row] for row in weights if not isinstance(row, str)]
        if len(apart) != size or any(len(row) != size or min(row) < 0 or row[i] for i, row in enumerate(apart)):
            raise Impossible("weights", "", "another", f"must be {size} by {size}, 0 for agreement, none negative")
    worst = max(map(max, apart))
    if not worst > 0:
        raise Impossible("weights", "", worst, "must set something apart")
    return [[1 - w / worst for w in row] for row in apart]
