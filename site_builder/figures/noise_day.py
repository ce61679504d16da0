"""Noise: a full day of each work, and a day that is shared between several, against what may not be passed."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf
from typing import NamedTuple

from site_builder.figures.amounts import about, between, lapse
from site_builder.figures.at_machines import AtMachine, Shift, shift_of, strongest
from site_builder.figures.batch_words import NO_BREAK, listed
from site_builder.figures.dose_drawing import Stretch, dose_drawing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, once
from site_builder.figures.hearing import Muffled, worn_on_ears
from site_builder.formulas.interval import Interval
from site_builder.safety.noise import (
    NIOSH,
    OSHA_ACTION,
    OSHA_LIMIT,
    PEAK,
    NoisySpell,
    daily_level,
    dose,
    hours_allowed,
    quieter_by,
)
from site_builder.safety.verdict import NOISE_EU, NOISE_NIOSH, NOISE_OSHA, Verdict, verdict

SOURCE = "29 CFR 1910.95 Appendix A; NIOSH criteria document 98-126; ISO 9612 for the daily level"
_NEARLY = 1e-6
BANGS = f"Single blows and bangs are not in it: none may pass {PEAK:.0f}{NO_BREAK}dB peak, however short."
"""The limit of which no dose and no daily level tells (29 CFR 1910.95(b)(2); Directive 2003/10/EC, Article 3)."""
NO_TIME = (f"Over {OSHA_LIMIT.ceiling:.0f}{NO_BREAK}dB(A) the 5{NO_BREAK}dB rule allows no time at all to bare ears "
           "(29 CFR 1910.95, Table G-16).")


class Spells(NamedTuple):
    """Noise of a day as it may be at least and at most; what is not told of is quiet."""

    least: tuple[NoisySpell, ...]
    most: tuple[NoisySpell, ...]


class NoiseDay(NamedTuple):
    """A day's noise on bare ears: daily level in dB(A), and doses (1 is a full one) by the two rules."""

    level: Interval
    five: Interval
    over_ninety: float
    """The greatest dose by the 5 dB rule when only what is over 90 dB(A) counts, as for the limit; infinite where
    the limit allows no time at all."""
    three: Interval
    at_ear: Interval | None
    """The daily level under the protection that is named; None where none is, or its rating is not told."""
    rough: bool

    @property
    def verdicts(self) -> tuple[Verdict, ...]:
        """Where the day stands, at the most it may be: by American law, by European law, by NIOSH."""
        five = max(self.five.high, self.over_ninety)
        if five >= 1 > self.over_ninety:
            five = 1 - _NEARLY
        level = max(self.level.high, 0.0)
        limit = NOISE_EU.marks[-1].value
        # the European limit value is taken under the protection that is worn, the action values are not
        if self.at_ear is not None and self.at_ear.high < limit <= level:
            level = limit - _NEARLY
        return (
            verdict(NOISE_OSHA, five * 100), verdict(NOISE_EU, level), verdict(NOISE_NIOSH, self.three.high * 100),
        )


class NoisyWork(NamedTuple):
    """A full day of a work at its loudest machine."""

    at: AtMachine
    shift: Shift
    day: NoiseDay
    worn: Muffled | None


def noisy_work(known: FigureInputs, procedure: str) -> NoisyWork | None:
    """A full day of a procedure; None where no machine of it tells its noise. Raises ``Impossible``."""
    at = strongest(known, procedure, "noise")
    if at is None:
        return None
    shift, worn = shift_of(known), worn_on_ears(known, procedure)
    days = _days(known)
    key = (at.given.span, at.share, at.given.rough, worn.id if worn is not None else "")
    if key not in days:
        days[key] = shared_day(known, [(at, shift.hours)])
    return NoisyWork(at, shift, days[key], worn)


@once
def _days(_known: FigureInputs) -> dict[object, NoiseDay]:
    """Days that were reckoned already: much work stands at the same few machines."""
    return {}


def shared_day(known: FigureInputs, works: Sequence[tuple[AtMachine, float]]) -> NoiseDay:
    """A day of so many hours of each of several works. Raises ``Impossible`` for levels or times that are none."""
    ends = Spells(
        tuple(NoisySpell(at.given.span.low, at.share.low * hours) for at, hours in works),
        tuple(NoisySpell(at.given.span.high, at.share.high * hours) for at, hours in works),
    )
    counted = [worn.counted if (worn := worn_on_ears(known, at.procedure)) is not None else None for at, _ in works]
    at_ear = None
    if any(counted):
        at_ear = _level(Spells(
            tuple(_under(spell, worn.high if worn is not None else 0)
                  for spell, worn in zip(ends.least, counted, strict=True)),
            tuple(_under(spell, worn.low if worn is not None else 0)
                  for spell, worn in zip(ends.most, counted, strict=True)),
        ))
    return NoiseDay(
        _level(ends), Interval(*(dose(end, OSHA_ACTION) for end in ends)), dose(ends.most, OSHA_LIMIT),
        Interval(*(dose(end, NIOSH) for end in ends)), at_ear, any(at.given.rough for at, _ in works),
    )


def _under(spell: NoisySpell, counted: float) -> NoisySpell:
    return quieter_by([spell], counted)[0]


def _level(ends: Spells) -> Interval:
    """No noise at all has no level; a day counts from 0 dB(A) on."""
    low, high = (daily_level(end) if any(spell.hours for spell in end) else 0.0 for end in ends)
    return Interval(min(low, high), max(low, high))


def drawn(works: Sequence[tuple[AtMachine, float]], hours: float, day: NoiseDay) -> str:
    """A day of so many hours with its noise and its dose by both rules, as a drawing.

    Empty where no noise counts, or where no dose is as great as it.
   """
    if (day.five.high == 0 and day.three.high == 0) or day.three.high == inf:
        return ""
    stretches = [Stretch(at.share.high * spent, at.given.span.middle) for at, spent in works]
    rules = ((f"5{NO_BREAK}dB rule", day.five), (f"3{NO_BREAK}dB rule", day.three))
    return dose_drawing(hours, stretches, rules, day.rough)


# ---------------------------------------------------------------------- words


def decibels(span: Interval, rough: bool) -> str:
    """``about 91 dB(A)``; no more than whole decibels are meant."""
    low, high = f"{span.low:.0f}", f"{span.high:.0f}"
    return about(f"{low if low == high else f'{low} to {high}'}{NO_BREAK}dB(A)", rough)


def day_words(day: NoiseDay) -> str:
    """Level and doses: ``a daily level of about 91 dB(A), 120 % of a day's dose by the 5 dB rule and …``."""
    level = f"a daily level of {decibels(day.level, day.rough)} over eight hours"
    if day.five.high == 0 and day.three.high == 0:
        return f"{level}; by the 5{NO_BREAK}dB rule and the 3{NO_BREAK}dB rule it does not count"
    over = f". {NO_TIME[:-1]}" if day.over_ninety == inf else ""
    five, three = (_told_share(one, day.rough) for one in (day.five, day.three))
    return (f"{level}, {five} of a day's dose by the "
            f"5{NO_BREAK}dB rule and {three} by the 3{NO_BREAK}dB rule{over}")


def _told_share(dose_: Interval, rough: bool) -> str:
    if dose_.high == inf:
        return "more than all"
    return about(f"{between(dose_.low * 100, dose_.high * 100, 2)}{NO_BREAK}%", rough)


def full_after(given: Given) -> str:
    """When bare ears have had a full dose beside this noise."""
    five, three = (Interval(*(hours_allowed(end, rule) for end in (given.span.high, given.span.low)))
                   for rule in (OSHA_ACTION, NIOSH))
    told = [
        f"after {about(lapse(span.low, span.high), given.rough)} by the {name} rule"
        for span, name in ((five, f"5{NO_BREAK}dB"), (three, f"3{NO_BREAK}dB")) if span.low < 24
    ]
    if given.span.high > (OSHA_LIMIT.ceiling or inf):
        return f"{NO_TIME} Bare ears have a full dose {' and '.join(told)}."
    if not told:
        return "Bare ears have no full dose of it in a day."
    return f"Bare ears have a full dose {' and '.join(told)}."


def worn_words(known: FigureInputs, work: NoisyWork) -> str:
    """What the protection that is named leaves of it, or that none is named."""
    worn = work.worn
    reached = any(one.reached for one in work.day.verdicts)
    if worn is None:
        return "No hearing protection is named for this work." if reached else ""
    title = known.notebook.tools[worn.id].title
    if worn.counted is None or work.day.at_ear is None:
        return f"“{title}” is named for it, and what it takes off is not told."
    counted = f"{between(worn.counted.low, worn.counted.high)}{NO_BREAK}dB"
    return (f"“{title}”, told with {worn.inputs[0].written} and {worn.how}, {counted}, leaves "
            f"{decibels(work.day.at_ear, work.day.rough)} at the ear.")


def at_ear_words(day: NoiseDay) -> str:
    """What is left of a day at the ear."""
    if day.at_ear is None:
        return ""
    return f"With all that is named to be worn {decibels(day.at_ear, day.rough)} are left at the ear."


def worn_in_short(known: FigureInputs, work: NoisyWork) -> str:
    """``about 78 dB(A) at the ear under “Ear defenders”``."""
    if work.worn is None or work.day.at_ear is None:
        return worn_words(known, work)
    title = known.notebook.tools[work.worn.id].title
    return f"{decibels(work.day.at_ear, work.day.rough)} at the ear under “{title}”"


def reached_words(verdicts: Sequence[Verdict]) -> str:
    """``the limit of 29 CFR 1910.95 and the upper action value of Directive 2003/10/EC``; empty where none is."""
    return listed(f"the {one.reached.name} of {_standard(one)}" for one in verdicts if one.reached is not None)


def reached_in_short(verdicts: Sequence[Verdict]) -> str:
    """``limit (29 CFR 1910.95), upper action value (Directive 2003/10/EC)``; empty where none is."""
    return ", ".join(f"{one.reached.name} ({_standard(one)})" for one in verdicts if one.reached is not None)


def _standard(one: Verdict) -> str:
    return one.yardstick.source.split(";")[0].split(",")[0]
