"""Noise of a day: how long a level may last, the dose of several, and the level that stands for the day."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import fsum, inf, log10

from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible
from site_builder.safety.hearing import HIGHEST_RATING, LOUDEST, counted_at_most

SHIFT = 8.0
"""Hours a criterion is written for."""
PEAK = 140.0
"""dB, dB(C) in Europe, that no single bang or blow may pass, however short: 29 CFR 1910.95(b)(2); limit value of
Directive 2003/10/EC, Article 3, 200 Pa."""


def _level(argument: str, value: float) -> None:
    guards.within(argument, "dB(A)", value, 0, LOUDEST)


@dataclass(frozen=True, slots=True)
class NoiseRule:
    """How noise is counted: ``criterion`` dB(A) for eight hours is a full dose, ``exchange`` dB more halve the time.

    Below ``threshold`` dB(A) nothing is counted; None counts everything. Above ``ceiling`` dB(A) no time at all is
    allowed; None knows no such level. Raises ``Impossible`` for an exchange of nothing or a level that is none.
    """

    name: str
    criterion: float
    exchange: float
    threshold: float | None = None
    ceiling: float | None = None

    def __post_init__(self) -> None:
        _level("criterion", self.criterion)
        guards.within("exchange rate", "dB", self.exchange, 1, 20)
        if self.threshold is not None:
            _level("threshold", self.threshold)
        if self.ceiling is not None:
            _level("ceiling", self.ceiling)


OSHA_LIMIT = NoiseRule("5 dB rule, limit", 90, 5, 90, 115)
"""29 CFR 1910.95(b), Table G-16: 90 dB(A) for 8 h; below 90 nothing counts against the limit. The table ends with 115
dB(A) for a quarter of an hour or less: for more it allows no time."""
OSHA_ACTION = NoiseRule("5 dB rule, action level", 90, 5, 80)
"""29 CFR 1910.95(c): everything from 80 dB(A) counts; half a dose, 85 dB(A), asks for hearing conservation.
The dose goes on beyond 115 dB(A): Table G-16a of Appendix A, by which a dose is reckoned, runs to 130."""
NIOSH = NoiseRule("3 dB rule", 85, 3, 80, 140)
"""NIOSH criteria document 98-126: 85 dB(A) for 8 h, each 3 dB halves the time; 140 dB(A) are not to be passed."""


@dataclass(frozen=True, slots=True)
class NoisySpell:
    """So many ``hours`` at a ``level`` in dB(A). Raises ``Impossible`` for a level or time that is none."""

    level: float
    hours: float

    def __post_init__(self) -> None:
        _level("noise level", self.level)
        if guards.not_negative("time in the noise", "h", self.hours) > 24:
            raise Impossible("time in the noise", "h", self.hours, "must fit into a day")


def hours_allowed(level: float, rule: NoiseRule) -> float:
    """Hours at ``level`` dB(A) that make a full dose by the rule; 0 above its ceiling.

    Raises ``Impossible`` for a level that is none. Sources: T = 8 / 2^((L - 90) / 5), 29 CFR 1910.95 Appendix A, and
    the end of Table G-16; the same with 85 and 3, NIOSH 98-126.
    """
    _level("noise level", level)
    if rule.ceiling is not None and level > rule.ceiling:
        return 0.0
    return float(SHIFT / 2 ** ((level - rule.criterion) / rule.exchange))


def dose(spells: Sequence[NoisySpell], rule: NoiseRule) -> float:
    """The noise of a day as a share of what is allowed: 1 is a full dose, 100 %. No spell is no dose.

    What lies below the rule's threshold is not counted; any time above its ceiling is an infinite dose.
    Raises ``Impossible`` where the spells are longer than a day.
    Source: D = sum of C / T, 29 CFR 1910.95 Appendix A, and NIOSH 98-126.
    """
    _one_day(spells)
    counted = (s for s in spells if rule.threshold is None or s.level >= rule.threshold)
    return fsum(_over(spell.hours, hours_allowed(spell.level, rule)) for spell in counted)


def eight_hour_level(of_dose: float, rule: NoiseRule) -> float:
    """The level in dB(A) that for eight hours gives the dose: the time-weighted average.

    Raises ``Impossible`` for a dose of nothing, which no level gives. Source: TWA = 16.61 log10(D / 100) + 90,
    29 CFR 1910.95 Appendix A; for 3 dB the exact factor is 9.966 where NIOSH 98-126 prints 10, which makes up to
    0.1 dB at low doses.
    """
    guards.above_zero("noise dose", "share", of_dose)
    return rule.criterion + rule.exchange / log10(2) * log10(of_dose)


def daily_level(spells: Sequence[NoisySpell]) -> float:
    """Daily exposure level LEX,8h in dB(A): the same sound energy spread over eight hours, nothing left out.

    Raises ``Impossible`` for a day without noise, or longer than a day. Source: ISO 9612:2009, task-based
    measurement; Directive 2003/10/EC, Article 2.
    """
    _one_day(spells)
    energy = fsum(spell.hours * 10 ** (spell.level / 10) for spell in spells)
    return 10 * log10(guards.above_zero("time in the noise", "h", energy) / SHIFT)


def hours_left(spells: Sequence[NoisySpell], level: float, rule: NoiseRule, share: float = 1.0) -> float:
    """Hours at ``level`` dB(A) that still fit into the day until the dose is ``share`` of a full one; 0 if it is.

    Not more than what is left of the 24 hours. Below the threshold the day is the only bound. Raises
    ``Impossible`` for a level or share that is none. Source: as ``dose``, solved for the time.
    """
    left = 24.0 - fsum(spell.hours for spell in spells)
    room = guards.above_zero("share of the dose", "share", share) - dose(spells, rule)
    allowed = hours_allowed(level, rule)
    if rule.threshold is not None and level < rule.threshold:
        return max(left, 0.0)
    return min(room * allowed, max(left, 0.0)) if room > 0 else 0.0


def quieter_by(spells: Sequence[NoisySpell], counted: float) -> tuple[NoisySpell, ...]:
    """The same day as heard under protection that is counted with ``counted`` dB. Levels do not fall under 0.

    No protection counts for more than bone conduction lets count. Raises ``Impossible`` for protection that is none.
    Source: level less attenuation, 29 CFR 1910.95 Appendix B.
    """
    counted = counted_at_most(guards.within("protection", "dB", counted, 0, HIGHEST_RATING))
    return tuple(NoisySpell(max(spell.level - counted, 0.0), spell.hours) for spell in spells)


def _over(hours: float, allowed: float) -> float:
    if hours == 0:
        return 0.0
    return hours / allowed if allowed else inf


def _one_day(spells: Sequence[NoisySpell]) -> None:
    hours = fsum(spell.hours for spell in spells)
    if hours > 24 + 1e-9:
        raise Impossible("time in the noise", "h", hours, "must fit into a day")
