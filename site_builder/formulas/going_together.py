"""Which share of the assemblies of a chain of sizes will not go together."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import erfc, fsum, inf, sqrt
from random import Random
from typing import Literal

from site_builder.formulas import guards
from site_builder.formulas.chain import Size, expected_gap, gap_deviation
from site_builder.formulas.errors import Impossible

Shape = Literal["bell", "even"]
_SHAPES: tuple[Shape, ...] = ("bell", "even")
_MOST_RUNS = 50_000
"""More make nobody surer who must wait for them."""


@dataclass(frozen=True, slots=True)
class Misfits:
    """Shares of assemblies (0 to 1) whose gap is under the least and over the most that is allowed."""

    under: float
    over: float

    @property
    def all(self) -> float:
        """Both together."""
        return self.under + self.over


@dataclass(frozen=True, slots=True)
class Trial:
    """What came of putting ``runs`` assemblies together by chance: mean and deviation of the gap, and misfits.

    ``doubt`` is one standard error of the share of misfits: so far it may be off because runs are not endless.
    """

    runs: int
    mean: float
    deviation: float
    narrowest: float
    widest: float
    misfits: Misfits

    @property
    def doubt(self) -> float:
        """One standard error of ``misfits.all``; with none found, the three in n of the rule of three."""
        found = self.misfits.all
        return sqrt(found * (1 - found) / self.runs) if 0 < found < 1 else 3 / self.runs


def misfits(sizes: Sequence[Size], least: float = -inf, most: float = inf) -> Misfits:
    """Shares of assemblies whose gap falls under ``least`` or over ``most``, when every size follows the bell curve.

    Limits in the unit of the sizes; an open side is infinite. Raises ``Impossible`` for an empty chain or limits
    the wrong way round. Source: normal theory of stacks, Scholz, Tolerance Stack Analysis Methods, Boeing 1995.
    """
    _sides(least, most)
    mean, deviation = expected_gap(sizes), gap_deviation(sizes)
    return Misfits(_tail(mean - least, deviation), _tail(most - mean, deviation))


def put_together(
    sizes: Sequence[Size],
    least: float = -inf,
    most: float = inf,
    *,
    runs: int = 20_000,
    seed: int = 1,
    shape: Shape = "bell",
) -> Trial:
    """Put ``runs`` assemblies together from parts taken by chance, and count those that do not go together.

    A size with two or more readings is drawn from its readings, blurred a little so that values between them come
    up too, with mean and deviation kept. Any other size is drawn from its limits: on the ``bell`` curve that puts
    99.7 % of the parts within them, with what falls outside sorted out; or ``even``, anything between the limits
    as likely as anything else, for parts nobody has measured. The same seed gives the same answer.

    Raises ``Impossible`` for an empty chain, limits the wrong way round or no run. Sources: Monte Carlo
    propagation, JCGM 101:2008; the blurred bootstrap, Silverman and Young, Biometrika 74 (1987) 469.
    """
    _sides(least, most)
    guards.some("chain", "length", sizes)
    guards.whole("runs", runs, 1, _MOST_RUNS)
    guards.whole("seed", seed)
    guards.one_of("shape", shape, _SHAPES)
    chance = Random(seed)
    draws = [(size.factor, _draw(size, chance, shape)) for size in sizes]
    gaps = [fsum(factor * draw() for factor, draw in draws) for _ in range(runs)]
    mean = fsum(gaps) / runs
    variance = fsum((gap - mean) ** 2 for gap in gaps) / max(runs - 1, 1)
    found = Misfits(sum(gap < least for gap in gaps) / runs, sum(gap > most for gap in gaps) / runs)
    return Trial(runs, mean, sqrt(variance), min(gaps), max(gaps), found)


def _sides(least: float, most: float) -> None:
    for what, limit in (("least gap allowed", least), ("greatest gap allowed", most)):
        if limit not in (-inf, inf):
            guards.finite(what, "length", limit)
    if not least <= most:
        raise Impossible("greatest gap allowed", "length", most, f"must be at least the least, {least:g}")


def _tail(room: float, deviation: float) -> float:
    """The share of a bell curve that lies further off than ``room``."""
    if deviation == 0:
        return 0.0 if room >= 0 else 1.0
    return erfc(room / deviation / sqrt(2)) / 2


def _draw(size: Size, chance: Random, shape: Shape) -> Callable[[], float]:
    if len(size.measured) > 1:
        return _from_readings(size, chance)
    if shape == "even" or size.half_width == 0:
        low, width = size.nominal + size.lower, 2 * size.half_width
        return lambda: low + width * chance.random()

    def within() -> float:
        while abs(off := chance.gauss(0, size.deviation)) > size.half_width:
            pass
        return size.middle + off

    return within


def _from_readings(size: Size, chance: Random) -> Callable[[], float]:
    mean, readings = size.mean, size.measured
    n = len(readings)
    # The rule-of-thumb width for a bell-shaped crowd; drawing back towards the mean keeps the deviation.
    width = 1.06 * n**-0.2
    # Drawn readings spread by n - 1 over n of the deviation that is reckoned from them.
    keep = sqrt((n - 1) / n + width**2)
    return lambda: mean + (chance.choice(readings) - mean + width * size.deviation * chance.gauss(0, 1)) / keep
