"""The figures of a value: lowest, highest and aim, in the base unit of its kind."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from site_builder.quantity.fits import deviations
from site_builder.quantity.measure import base_amount, unit_of
from site_builder.quantity.units import ONE, WHICH_GALLON, Unit, difference, product, quotient, same_dimensions
from site_builder.quantity.value import (
    Ask,
    Choice,
    Clause,
    Computed,
    Deviation,
    Expression,
    Fit,
    Limits,
    Quantity,
    Range,
    Reference,
    Same,
    Scaled,
    Some,
    Sweep,
    Term,
    Toleranced,
    Value,
    Word,
)

Figure = Fraction | None


@dataclass(frozen=True, slots=True)
class Bounds:
    """What a value accepts and aims at, in base units (``units``: m, kg, s, °C, K, 1 …), exact.

    ``low`` and ``high`` are what is accepted (None: no limit on this side), ``low_in`` and ``high_in``
    whether the figure itself belongs to it. ``aim_low`` and ``aim_high`` are where to be; a plain
    quantity has only these. ``rough`` is said with ``about``. ``low_untold`` and ``high_untold``: there
    is a limit on this side, but its figure is asked for, is the calendar's, or leans on a name that was
    not given. ``relative``: a deviation from a size that stands elsewhere. ``unit`` is the one written,
    ``kind`` its kind.
    """

    unit: Unit
    low: Figure = None
    high: Figure = None
    aim_low: Figure = None
    aim_high: Figure = None
    low_in: bool = True
    high_in: bool = True
    rough: bool = False
    low_untold: bool = False
    high_untold: bool = False
    relative: bool = False

    @property
    def kind(self) -> str:
        """The kind of the figures."""
        return self.unit.kind

    @property
    def limited(self) -> bool:
        """Whether anything is refused."""
        return self.low is not None or self.high is not None or self.low_untold or self.high_untold

    def shown(self, figure: Fraction) -> Fraction:
        """A base figure in the unit written."""
        return (figure - self.unit.offset) / self.unit.factor

    def accepts(self, figure: Fraction) -> bool:
        """Whether a base figure lies within what is known of the limits."""
        over = self.low is None or figure > self.low or (self.low_in and figure == self.low)
        under = self.high is None or figure < self.high or (self.high_in and figure == self.high)
        return over and under


class _UntoldError(Exception):
    """A name that was not given, the calendar, or a result without sense: no figure."""


def bounds(value: Value, given: Mapping[str, Bounds] | None = None) -> Bounds | None:
    """The figures of a value, or None where it has none that can be told.

    ``given`` holds the bounds of other values by the name that refers to them; names that are not in it leave
    their side untold. In a sum both values vary over their whole width (worst case).
    """
    what, names = value.what, given or {}
    if isinstance(what, Limits):
        return _limits(what, names)
    if isinstance(what, Toleranced):
        return _toleranced(what)
    if isinstance(what, Fit):
        return _fit(what)
    if isinstance(what, Word):
        return names.get(what.text)
    try:
        if isinstance(what, Deviation):
            unit = difference(unit_of(what.quantity))
            plain = unit_of(what.quantity)
            width = base_amount(what.quantity) - plain.offset
            return Bounds(unit, -width, width, Fraction(0), Fraction(0), relative=True)
        if isinstance(what, Range):
            low, high = _evaluate(what.low, names), _evaluate(what.high, names)
            return Bounds(low.unit, _figure(low, "low"), _figure(high, "high"), rough=low.rough or high.rough)
        if isinstance(what, Sweep):
            start, end = _evaluate(what.start, names), _evaluate(what.end, names)
            ends = sorted((_figure(start, "low"), _figure(end, "low")))
            return Bounds(start.unit, ends[0], ends[1], rough=start.rough or end.rough)
        if isinstance(what, Quantity | Reference | Scaled | Same | Computed):
            return _evaluate(what, names)
    except _UntoldError:
        return None
    return None


def _toleranced(what: Toleranced) -> Bounds:
    unit = what.unit
    nominal = what.nominal.exact * unit.factor + unit.offset
    low, high = nominal + what.lower.exact * unit.factor, nominal + what.upper.exact * unit.factor
    return Bounds(unit, low, high, nominal, nominal)


def _fit(what: Fit) -> Bounds:
    size = what.size.exact * what.unit.factor
    lower, upper = deviations(size * 1000, what.letters, what.grade)
    return Bounds(what.unit, size + lower / 1_000_000, size + upper / 1_000_000)


def _figure(found: Bounds, side: str) -> Fraction:
    """The figure by which a value bounds another: its aim, else its only side, of two the stricter."""
    if found.aim_low is not None and found.aim_high is not None:
        return found.aim_low if side == "high" else found.aim_high
    told = [figure for figure in (found.low, found.high) if figure is not None]
    if not told:
        raise _UntoldError
    return min(told) if side == "high" else max(told)


def _limits(what: Limits, names: Mapping[str, Bounds]) -> Bounds | None:
    found: Bounds | None = None
    untold: list[Clause] = []
    parts: list[tuple[Clause, Bounds, Fraction, Fraction]] = []
    for clause in what.clauses:
        try:
            inner = clause.what
            if isinstance(inner, Ask | Some):
                raise _UntoldError
            side = "low" if clause.lead in ("min", "over") else "high"
            if isinstance(inner, Range):
                low, high = _evaluate(inner.low, names), _evaluate(inner.high, names)
                parts.append((clause, low, _figure(low, "low"), _figure(high, "high")))
            elif isinstance(inner, Choice):
                options = [_evaluate(option, names) for option in inner.options]
                figures = [_figure(option, side) for option in options]
                figure = min(figures) if inner.whichever == "less" else max(figures)
                parts.append((clause, options[0], figure, figure))
            else:
                one = _evaluate(inner, names)
                if clause.lead in ("aim", "about") and one.aim_low is None:
                    raise _UntoldError
                parts.append((clause, one, _figure(one, "high"), _figure(one, "low")))
        except _UntoldError:
            untold.append(clause)
    for clause, origin, low_figure, high_figure in parts:
        found = found or Bounds(origin.unit)
        found = replace(found, rough=found.rough or clause.rough)
        if clause.lead in ("aim", "about"):
            found = replace(found, aim_low=low_figure, aim_high=high_figure)
            found = replace(found, rough=found.rough or clause.lead == "about" or origin.rough)
        elif clause.lead in ("min", "over"):
            figure = low_figure if isinstance(clause.what, Range) else high_figure
            if found.low is None or figure >= found.low:
                found = replace(found, low=figure, low_in=clause.lead == "min")
        else:
            figure = high_figure if isinstance(clause.what, Range) else low_figure
            if found.high is None or figure <= found.high:
                found = replace(found, high=figure, high_in=clause.lead == "max")
    for clause in untold:
        if found is not None and clause.lead in ("min", "over"):
            found = replace(found, low_untold=True)
        elif found is not None and clause.lead in ("max", "under"):
            found = replace(found, high_untold=True)
    return found


# --- expressions ------------------------------------------------------------------------------------


def _evaluate(expression: Expression, names: Mapping[str, Bounds]) -> Bounds:
    if not isinstance(expression, Computed):
        return _term(expression, names)
    # Products first, then the sum of them.
    sums: list[tuple[str, Bounds]] = [("plus", _term(expression.first, names))]
    for operator, term in expression.rest:
        right = _term(term, names)
        if operator in ("plus", "minus"):
            sums.append((operator, right))
        else:
            sign, left = sums.pop()
            sums.append((sign, _times(left, right) if operator == "x" else _over(left, right)))
    total = sums[0][1]
    for sign, right in sums[1:]:
        total = _plus(total, right if sign == "plus" else _negative(right))
    return total


def _term(term: Term, names: Mapping[str, Bounds]) -> Bounds:
    if isinstance(term, Quantity):
        if any(part.unit is WHICH_GALLON for part in term.parts) or (term.per and term.per.unit is WHICH_GALLON):
            raise _UntoldError
        amount = base_amount(term)
        return Bounds(unit_of(term), aim_low=amount, aim_high=amount)
    if isinstance(term, Same):
        raise _UntoldError
    name = term.reference.name if isinstance(term, Scaled) else term.name
    found = names.get(name)
    if found is None:
        raise _UntoldError
    if isinstance(term, Reference):
        return found
    factor = term.factor.exact / (100 if term.percent else 1)
    return _each(found, lambda figure: figure * factor, swap=factor < 0)


def _each(found: Bounds, change: Callable[[Fraction], Fraction], swap: bool) -> Bounds:
    """Every figure changed; ``swap`` when that turns low into high."""
    figures = [
        None if figure is None else change(figure)
        for figure in (found.low, found.high, found.aim_low, found.aim_high)
    ]
    if not swap:
        low, high, aim_low, aim_high = figures
        return replace(found, low=low, high=high, aim_low=aim_low, aim_high=aim_high)
    high, low, aim_high, aim_low = figures
    return replace(
        found,
        low=low,
        high=high,
        aim_low=aim_low,
        aim_high=aim_high,
        low_in=found.high_in,
        high_in=found.low_in,
        low_untold=found.high_untold,
        high_untold=found.low_untold,
    )


def _negative(found: Bounds) -> Bounds:
    return _each(found, lambda figure: -figure, swap=True)


def _ends(found: Bounds) -> tuple[Figure, Figure]:
    """Between which figures a value lies: its limits, or where it aims if it has none."""
    return (found.low, found.high) if found.limited else (found.aim_low, found.aim_high)


def _plus(a: Bounds, b: Bounds) -> Bounds:
    kinds = {a.kind, b.kind}
    if not same_dimensions(a.unit, b.unit) and kinds != {"temperature", "temperature difference"}:
        raise _UntoldError
    unit = b.unit if b.kind == "temperature" else a.unit

    def add(x: Figure, y: Figure) -> Figure:
        return None if x is None or y is None else x + y

    limited = a.limited or b.limited
    (a_low, a_high), (b_low, b_high) = _ends(a), _ends(b)
    return Bounds(
        unit,
        add(a_low, b_low) if limited else None,
        add(a_high, b_high) if limited else None,
        add(a.aim_low, b.aim_low),
        add(a.aim_high, b.aim_high),
        a.low_in and b.low_in,
        a.high_in and b.high_in,
        a.rough or b.rough,
        a.low_untold or b.low_untold,
        a.high_untold or b.high_untold,
    )


def _corners(a: tuple[Figure, Figure], b: tuple[Figure, Figure]) -> tuple[Figure, Figure]:
    if a[0] is None or a[1] is None or b[0] is None or b[1] is None:
        return None, None
    corners = [x * y for x in (a[0], a[1]) for y in (b[0], b[1])]
    return min(corners), max(corners)


def _times(a: Bounds, b: Bounds) -> Bounds:
    limited = a.limited or b.limited
    low, high = _corners(_ends(a), _ends(b)) if limited else (None, None)
    aim_low, aim_high = _corners((a.aim_low, a.aim_high), (b.aim_low, b.aim_high))
    untold = limited and low is None
    return Bounds(
        product(a.unit, b.unit), low, high, aim_low, aim_high, rough=a.rough or b.rough, low_untold=untold,
        high_untold=untold,
    )  # fmt: skip


def _over(a: Bounds, b: Bounds) -> Bounds:
    figures = [figure for figure in (*_ends(b), b.aim_low, b.aim_high) if figure is not None]
    if not figures or min(figures) <= 0 <= max(figures):
        raise _UntoldError
    turned = _each(b, lambda figure: 1 / figure, swap=True)
    return _times(a, replace(turned, unit=quotient(ONE, b.unit)))
