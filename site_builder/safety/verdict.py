"""Exposures against the values from which one must act, and those that must not be passed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import inf

from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible


@dataclass(frozen=True, slots=True)
class Mark:
    """One value on a yardstick and what reaching it means: "action value", "limit value"."""

    name: str
    value: float

    def __post_init__(self) -> None:
        guards.not_negative(self.name, "", self.value)


@dataclass(frozen=True, slots=True)
class Yardstick:
    """Marks for one kind of exposure, lowest first, with their ``unit`` and ``source``.

    ``exchange`` is given for levels in decibels: so many dB are twice as much. Raises ``Impossible`` for no marks,
    or marks that do not rise.
    """

    name: str
    unit: str
    marks: tuple[Mark, ...]
    source: str
    exchange: float | None = None

    def __post_init__(self) -> None:
        guards.some(f"marks of {self.name}", self.unit, self.marks)
        if self.exchange is not None:
            guards.above_zero("exchange rate", "dB", self.exchange)
        values = [mark.value for mark in self.marks]
        if values != sorted(set(values)):
            raise Impossible(f"marks of {self.name}", self.unit, ", ".join(map(str, values)), "must rise")


@dataclass(frozen=True, slots=True)
class Verdict:
    """Where an exposure stands on its yardstick.

    ``reached`` is the highest mark it reaches, ``ahead`` the next one; None where there is none. ``share`` is how
    much it is of the highest mark: 1 is all of it; for decibels by energy and not by the number.
    """

    yardstick: Yardstick
    exposure: float
    reached: Mark | None
    ahead: Mark | None
    share: float

    @property
    def at_the_top(self) -> bool:
        """Whether the highest mark, the limit, is reached."""
        return self.reached is not None and self.ahead is None


NOISE_OSHA = Yardstick(
    "noise dose, 5 dB rule",
    "% of a day's dose",
    (Mark("action level", 50), Mark("limit", 100)),
    "29 CFR 1910.95",
)
NOISE_NIOSH = Yardstick(
    "noise dose, 3 dB rule", "% of a day's dose", (Mark("recommended limit", 100),), "NIOSH criteria document 98-126"
)
NOISE_EU = Yardstick(
    "daily noise level",
    "dB(A) LEX,8h",
    (Mark("lower action value", 80), Mark("upper action value", 85), Mark("limit value", 87)),
    "Directive 2003/10/EC, Article 3; the limit value is taken under the protection that is worn",
    exchange=3.0,
)
VIBRATION = Yardstick(
    "hand-arm vibration",
    "m/s² A(8)",
    (Mark("action value", 2.5), Mark("limit value", 5.0)),
    "Directive 2002/44/EC, Article 3",
)
LIFTING = Yardstick(
    "lifting index",
    "",
    (Mark("rising risk", 1.0), Mark("high risk", 3.0)),
    "NIOSH 94-110; exactly 1 is called both the goal and hazardous there; here it counts as reached",
)


def verdict(yardstick: Yardstick, exposure: float) -> Verdict:
    """Where an exposure stands; a value that is exactly met is reached. An infinite one reaches everything.

    Raises ``Impossible`` for an exposure under 0 or that is no number. Source: that of the yardstick.
    """
    if exposure != inf:
        guards.not_negative(f"exposure to {yardstick.name}", yardstick.unit, exposure)
    reached = [mark for mark in yardstick.marks if exposure >= mark.value]
    ahead = yardstick.marks[len(reached) :]
    return Verdict(
        yardstick,
        exposure,
        reached[-1] if reached else None,
        ahead[0] if ahead else None,
        _share(yardstick, exposure),
    )


def worst_first(verdicts: Iterable[Verdict]) -> tuple[Verdict, ...]:
    """The verdicts in order: limits reached, then action values reached, then the rest; in each the most first.

    Equal ones stay in order. Source: common practice.
    """
    return tuple(sorted(verdicts, key=lambda one: (-_rank(one), -one.share)))


def reaching(verdicts: Sequence[Verdict]) -> tuple[Verdict, ...]:
    """Only those that reach a mark, worst first. Source: common practice."""
    return worst_first(one for one in verdicts if one.reached)


def _rank(one: Verdict) -> int:
    if one.at_the_top:
        return 2
    return 1 if one.reached else 0


def _share(yardstick: Yardstick, exposure: float) -> float:
    top = yardstick.marks[-1].value
    if exposure == inf:
        return inf
    if yardstick.exchange is None:
        return exposure / top
    guards.within(yardstick.name, yardstick.unit, exposure, 0, 1000)
    return float(2 ** ((exposure - top) / yardstick.exchange))
