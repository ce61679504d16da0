"""Values as a page prints them: words and units for reading, the other system of units beside them.

Plain text, no markup: a no-break blank between number and unit, a true minus, "12 to 30 °C".
A converted limit is rounded to its safe side, so that what it admits the written one admits too.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import Literal

from site_builder.quantity.convert import (
    Round,
    converted,
    other_unit,
    resolution,
    rounded,
    step_for,
    ten_below,
)
from site_builder.quantity.fits import deviations
from site_builder.quantity.measure import base_amount, expressions_of, terms_of
from site_builder.quantity.show import doubts_a_clause, is_single, show_deviation
from site_builder.quantity.units import COUNT, LISTED, Unit, difference
from site_builder.quantity.value import (
    Ask,
    Choice,
    Clause,
    Computed,
    Deviation,
    Expression,
    Fit,
    Judged,
    Limits,
    Measure,
    Number,
    Per,
    Quantity,
    Range,
    Reference,
    Same,
    Some,
    Sweep,
    Term,
    Toleranced,
    Value,
    What,
    Word,
)

Systems = Literal["metric", "imperial", "both"]
NO_BREAK = "\u00a0"
MINUS = "\u2212"
UNTOLD = "not told yet"
# A difference of temperature that is plainly one (after "per" or "±") is printed with the sign of its scale.
_SCALE = {"°C difference": LISTED["°C"], "°F difference": LISTED["°F"]}
_LEADS = {"min": "at least", "max": "at most", "aim": "aim at"}
_LEAD = re.compile(r"(^|, |perhaps )(min|max|aim) ")
_OPPOSITE: dict[Round, Round] = {"up": "down", "down": "up", "near": "near"}


# A page tells the same value in a limit, on its sides and in a table; all of it follows from the value alone.
_KEPT = 4096


@dataclass(frozen=True, slots=True)
class Shown:
    """The text to print, and the same in the other system ("" where there is nothing to add)."""

    main: str
    other: str


@lru_cache(maxsize=_KEPT)
def for_people(value: Value, system: Systems = "both") -> Shown:
    """The value for reading.

    With ``both`` it stands as written, the other system beside it; with ``metric`` or ``imperial`` it stands
    in that system alone, converted where it was written in the other.
    """
    written = _Printer(value, False)
    main = written.text()
    turned = _Printer(value, True).text() if written.system() else main
    if turned == main:
        return Shown(main, "")
    if system == "both":
        return Shown(main, turned)
    return Shown(main if written.system() == _wanted(system) else turned, "")


@lru_cache(maxsize=_KEPT)
def main_for_people(value: Value, system: Systems = "both") -> str:
    """Only the main text, where the other system has no room beside it: nothing is converted for nothing."""
    written = _Printer(value, False)
    as_written = system == "both" or written.system() in ("", _wanted(system))
    return (written if as_written else _Printer(value, True)).text()


def spelt(text: str) -> str:
    """``at least 3 min`` for ``min 3 min``: the floor and the minute shall not be mistaken for each other."""
    return _LEAD.sub(lambda found: f"{found[1]}{_LEADS[found[2]]} ", text)


def as_said(value: Value) -> str:
    """``at most 8 weeks`` for ``max 8 wk``: as written, in the words of a question that is asked aloud."""
    return spelt(main_for_people(value))


def _wanted(system: Systems) -> str:
    return "metric" if system == "metric" else "inch"


def quantity_for_people(quantity: Quantity) -> str:
    """One quantity as written, for reading."""
    return _Printer(Value(quantity), False).quantity(quantity)


def unit_name(unit: Unit, single: bool) -> str:
    """The unit in the words people read."""
    return unit.one if single else unit.many


def with_unit(number: str, unit: Unit, single: bool = False) -> str:
    """Number and unit with what stands between them: nothing before a degree of angle."""
    signed = MINUS + number[1:] if number.startswith("-") else number
    if unit is COUNT:
        return signed
    if unit.kind == "angle":
        return f"{signed}°"
    return f"{signed}{NO_BREAK}{unit_name(unit, single)}"


class _Printer:
    """Prints one value, as written or (``turn``) in the other system."""

    def __init__(self, value: Value, turn: bool) -> None:
        self.value = value
        self.turn = turn

    @cached_property
    def gap(self) -> Fraction | None:
        """The least distance between two figures of the value, in base units."""
        figures = sorted(
            {
                base_amount(Quantity(term.parts))
                for expression in expressions_of(self.value.what)
                for term in terms_of(expression)
                if isinstance(term, Quantity)
            }
        )
        return min((after - before for before, after in pairwise(figures)), default=None)

    def system(self) -> str:
        """The system of units the value was written in; "" where both use the same."""
        for unit in self.units():
            if unit.system and other_unit(unit) is not None:
                return unit.system
        return ""

    def units(self) -> list[Unit]:
        """All units written in the value."""
        what = self.value.what
        if isinstance(what, Toleranced | Fit | Some):
            return [what.unit]
        found: list[Unit] = []
        for expression in expressions_of(what):
            for term in terms_of(expression):
                if isinstance(term, Quantity):
                    found += [part.unit for part in term.parts]
                    found += [term.per.unit] if term.per else []
        return found

    def text(self) -> str:
        """The whole value."""
        told = self.what(self.value.what)
        return f"perhaps {told}" if self.value.perhaps and not doubts_a_clause(self.value) else told

    def what(self, what: What) -> str:
        if isinstance(what, Ask):
            return UNTOLD
        if isinstance(what, Some):
            unit = (other_unit(what.unit) if self.turn else None) or what.unit
            return f"some{NO_BREAK}{unit_name(unit, False)}"
        if isinstance(what, Judged):
            return f"{what.how} {what.words}".rstrip()
        if isinstance(what, Word):
            return what.text
        if isinstance(what, Limits):
            return ", ".join(self.clause(clause) for clause in what.clauses)
        if isinstance(what, Range):
            return self.range(what, "up", "down")
        if isinstance(what, Sweep):
            return f"from {self.range(Range(what.start, what.end), 'near', 'near')}"
        if isinstance(what, Toleranced):
            return self.toleranced(what)
        if isinstance(what, Deviation):
            return self.deviation(what)
        if isinstance(what, Fit):
            return self.fit(what)
        return self.expression(what)

    # --- quantities ---------------------------------------------------------------------------------

    def per(self, per: Per) -> tuple[str, Fraction]:
        """``per 120 pieces``, and what to multiply the figure by when that changes its unit."""
        unit = difference(per.unit)
        target = other_unit(unit) if self.turn else None
        plain = per.unit
        if target is not None and target.kind == "temperature difference":
            plain = _SCALE[target.symbol]
        if per.number is None:
            if target is None:
                return f" per {unit_name(per.unit, True)}", Fraction(1)
            return (
                f" per {unit_name(plain if plain is not per.unit else target, True)}",
                target.factor / unit.factor,
            )
        if target is None:
            return f" per {with_unit(per.number.text, per.unit, is_single(per.number))}", Fraction(1)
        told = converted(Quantity((Measure(per.number, unit),)), target)
        return f" per {with_unit(told.text(), plain if plain is not per.unit else target)}", Fraction(1)

    def quantity(self, quantity: Quantity, way: Round = "near", bare: bool = False) -> str:
        """One quantity; ``bare`` leaves the unit to the neighbour that follows."""
        per, scale = self.per(quantity.per) if quantity.per else ("", Fraction(1))
        written = quantity.parts[0].unit
        # Degrees per hour are a difference, though nobody writes the word.
        unit = difference(written) if quantity.per else written
        target = other_unit(unit) if self.turn else None
        if target is None and scale == 1:
            if bare:
                return _minus(quantity.parts[0].number.text)
            parts = (with_unit(p.number.text, p.unit, is_single(p.number)) for p in quantity.parts)
            return NO_BREAK.join(parts) + per
        goal = target or unit
        if unit is not written:
            quantity = Quantity((Measure(quantity.parts[0].number, unit),))
        told = converted(quantity, goal, None if quantity.per else self.gap)
        figure = told.figure * scale
        step = told.step if scale == 1 else step_for(figure, told.step * scale, goal)
        number = rounded(figure, step, way)
        name = goal if unit is written else _SCALE[goal.symbol]
        return _minus(number) if bare else with_unit(number, name, number == "1") + per

    def range(self, found: Range, low_way: Round, high_way: Round) -> str:
        low, high = found.low, found.high
        if isinstance(low, Quantity) and isinstance(high, Quantity):
            simple = len(low.parts) == len(high.parts) == 1
            alike = low.parts[0].unit is high.parts[0].unit and low.per == high.per
            if simple and alike:
                return f"{self.quantity(low, low_way, bare=True)} to {self.quantity(high, high_way)}"
        return f"{self.expression(low, low_way)} to {self.expression(high, high_way)}"

    def clause(self, clause: Clause) -> str:
        lead, what = clause.lead, clause.what
        way: Round = "up" if lead in ("min", "over") else "down" if lead in ("max", "under") else "near"
        if isinstance(what, Ask):
            return f"{lead} {UNTOLD}"
        told: str = lead + (" perhaps" if clause.perhaps else "") + (" about" if clause.rough else "")
        if isinstance(what, Some):
            return f"{told} {self.what(what)}, {UNTOLD}"
        if isinstance(what, Range):
            return f"{told} {self.range(what, way, way)}"
        if isinstance(what, Choice):
            options = " or ".join(self.expression(option, way) for option in what.options)
            return f"{told} {options}, whichever is {what.whichever}"
        return f"{told} {self.expression(what, way)}"

    def expression(self, expression: Expression, way: Round = "near") -> str:
        if not isinstance(expression, Computed):
            return self.term(expression, way)
        told = self.term(expression.first, way)
        for operator, term in expression.rest:
            sign = "×" if operator == "x" else operator
            told += f" {sign} {self.term(term, _OPPOSITE[way] if operator in ('minus', '/') else way)}"
        return told

    def term(self, term: Term, way: Round) -> str:
        if isinstance(term, Quantity):
            return self.quantity(term, way)
        if isinstance(term, Reference):
            return term.name
        if isinstance(term, Same):
            return f"the same {term.period}"
        percent = f"{NO_BREAK}%" if term.percent else ""
        sign = "×" if term.by == "x" else "of"
        return f"{_minus(term.factor.text)}{percent} {sign} {term.reference.name}"

    # --- tolerances ---------------------------------------------------------------------------------

    def toleranced(self, what: Toleranced) -> str:
        unit = what.unit
        target = other_unit(unit) if self.turn else None
        if target is None:
            if what.even:
                return f"{_minus(what.nominal.text)} {with_unit('±' + what.upper.text, unit)}"
            sides = f"{_minus(show_deviation(what.upper))}/{_minus(show_deviation(what.lower))}"
            return f"{_minus(what.nominal.text)} {with_unit(sides, unit)}"
        ratio = unit.factor / target.factor
        nominal = (what.nominal.exact * unit.factor + unit.offset - target.offset) / target.factor
        low, high = nominal + what.lower.exact * ratio, nominal + what.upper.exact * ratio
        numbers = (what.nominal, what.upper, what.lower)
        told = min(resolution(number) for number in numbers) * ratio
        sizes = [abs(number.exact) * ratio for number in (what.upper, what.lower) if number.exact]
        step = min([step_for(size, told, difference(target), share=20) for size in sizes] or [ten_below(told)])
        if unit.kind == "temperature":
            step = min(step, ten_below(told))
        # A side of nought stays nought: the middle is rounded into the limits instead.
        way: Round = "up" if what.lower.exact == 0 else "down" if what.upper.exact == 0 else "near"
        middle = rounded(nominal, step, way)
        centre = Fraction(middle)
        above, below = rounded(high - centre, step, "down"), rounded(low - centre, step, "up")
        if what.even:
            least = min(Fraction(above), -Fraction(below))
            return f"{_minus(middle)} {with_unit('±' + rounded(least, step, 'near'), target)}"
        above, below = "0" if what.upper.exact == 0 else above, "0" if what.lower.exact == 0 else below
        sides = "/".join(_minus(show_deviation(Number(side))) for side in (above, below))
        return f"{_minus(middle)} {with_unit(sides, target)}"

    def deviation(self, what: Deviation) -> str:
        quantity = what.quantity
        unit = quantity.parts[0].unit
        target = other_unit(difference(unit)) if self.turn else None
        if target is None:
            return f"±{self.quantity(quantity)}"
        plain = _SCALE.get(target.symbol, target) if unit.kind == "temperature" else target
        parts = tuple(Measure(part.number, difference(part.unit)) for part in quantity.parts)
        per, scale = self.per(quantity.per) if quantity.per else ("", Fraction(1))
        told = converted(Quantity(parts), target)
        return f"±{with_unit(rounded(told.figure * scale, told.step, 'down'), plain)}{per}"

    def fit(self, what: Fit) -> str:
        """The class and what it comes to."""
        unit = (other_unit(what.unit) if self.turn else None) or what.unit
        size = what.size.exact * what.unit.factor
        lower, upper = deviations(size * 1000, what.letters, what.grade)
        low, high = (size + lower / 1_000_000) / unit.factor, (size + upper / 1_000_000) / unit.factor
        micrometre = Fraction(1, 1_000_000) / unit.factor
        step = (
            ten_below(micrometre)
            if unit.system == "inch" or lower.denominator == upper.denominator == 1
            else None
        )
        step = step or ten_below(micrometre / 2)
        limits = f"{_fixed(low, step, 'up')} to {with_unit(_fixed(high, step, 'down'), unit)}"
        if self.turn:
            return limits
        return f"{what.size.text} {with_unit(f'{what.letters}{what.grade}', what.unit)}, {limits}"


def _fixed(figure: Fraction, step: Fraction, way: Round) -> str:
    """Rounded, with every digit down to the step, as sizes on a drawing are written."""
    text = rounded(figure, step, way)
    places = len(str(step.denominator)) - 1
    whole, _, decimals = text.partition(".")
    return f"{whole}.{decimals.ljust(places, '0')}" if places else text


def _minus(number: str) -> str:
    return MINUS + number[1:] if number.startswith("-") else number
