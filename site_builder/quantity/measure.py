"""What a quantity amounts to in base units, and of which kind values are."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from site_builder.quantity.errors import NotationError
from site_builder.quantity.units import Unit, difference, find_unit, quotient, same_dimensions
from site_builder.quantity.value import (
    Ask,
    Choice,
    Computed,
    Deviation,
    Expression,
    Fit,
    Judged,
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
    What,
    Word,
)


def unit_of(quantity: Quantity) -> Unit:
    """The unit of a quantity; of a rate, the unit per what it is counted by."""
    unit, per = quantity.parts[0].unit, quantity.per
    if per is None:
        return unit
    return quotient(unit, per.unit, per.number.exact if per.number else Fraction(1))


def base_amount(quantity: Quantity) -> Fraction:
    """The quantity in the base unit of its kind (``units``): 40 °F is 40/9 °C, 2 h 30 min are 9000 s."""
    first = quantity.parts[0]
    number = first.number.exact
    if len(quantity.parts) > 1:
        smaller = (
            sum((p.number.exact * p.unit.factor for p in quantity.parts[1:]), Fraction(0)) / first.unit.factor
        )
        number = number - smaller if first.number.text[0] == "-" else number + smaller
    unit = unit_of(quantity)
    return number * unit.factor + unit.offset if unit.offset else number * unit.factor


def quantity_in(quantity: Quantity, unit_symbol: str) -> Fraction:
    """The figure of the quantity in another unit of its kind, exact.

    Raises ``NotationError``: ``unit-unknown`` for no unit, ``unit-wrong-kind`` for one of another kind.
    """
    unit = find_unit(unit_symbol)
    if unit is None:
        raise NotationError("unit-unknown", f"`{unit_symbol}` is no unit we know.")
    own = unit_of(quantity)
    if not same_dimensions(own, unit):
        raise NotationError("unit-wrong-kind", f"{own.kind} cannot be told in `{unit_symbol}`.")
    return (base_amount(quantity) - unit.offset) / unit.factor


def terms_of(expression: Expression) -> tuple[Term, ...]:
    """The terms of an expression in order."""
    if isinstance(expression, Computed):
        return (expression.first, *(term for _, term in expression.rest))
    return (expression,)


def expressions_of(what: What) -> Iterator[Expression]:
    """Every expression that stands in it, in the order written."""
    if isinstance(what, Limits):
        for clause in what.clauses:
            inner = clause.what
            if isinstance(inner, Choice):
                yield from inner.options
            elif isinstance(inner, Range):
                yield from (inner.low, inner.high)
            elif not isinstance(inner, Ask | Some):
                yield inner
    elif isinstance(what, Range):
        yield from (what.low, what.high)
    elif isinstance(what, Sweep):
        yield from (what.start, what.end)
    elif isinstance(what, Deviation):
        yield what.quantity
    elif isinstance(what, Quantity | Reference | Scaled | Same | Computed):
        yield what


def references(value: Value) -> tuple[Reference, ...]:
    """The names a value refers to, with offsets; a lone ``Word``, which may be one, is not among them."""
    found: list[Reference] = []
    for expression in expressions_of(value.what):
        for term in terms_of(expression):
            if isinstance(term, Reference):
                found.append(term)
            elif isinstance(term, Scaled):
                found.append(term.reference)
    return tuple(found)


def expression_unit(expression: Expression) -> Unit | None:
    """The unit of an expression, where it can be told without looking up names."""
    if type(expression) is Quantity:
        return unit_of(expression)
    if isinstance(expression, Computed) and all(
        operator in ("plus", "minus") for operator, _ in expression.rest
    ):
        units = [unit_of(term) for term in terms_of(expression) if isinstance(term, Quantity)]
        # A temperature plus a difference is a temperature.
        return next((unit for unit in units if unit.kind == "temperature"), units[0] if units else None)
    return None


def unit_of_value(value: Value) -> Unit | None:
    """The first unit written in a value, by which its kind is known; None where there is none."""
    what = value.what
    if isinstance(what, Ask | Judged | Word):
        return None
    if isinstance(what, Some):
        return what.unit
    if isinstance(what, Toleranced | Fit):
        return what.unit
    if isinstance(what, Deviation):
        return difference(unit_of(what.quantity))
    for expression in expressions_of(what):
        unit = expression_unit(expression)
        if unit is not None:
            return unit
    if isinstance(what, Limits):
        for clause in what.clauses:
            if isinstance(clause.what, Some):
                return clause.what.unit
    if any(isinstance(expression, Same) for expression in expressions_of(what)):
        return find_unit("d")
    return None


def units_in(value: Value) -> frozenset[Unit]:
    """Every unit that is written in a value, those it is counted by too."""
    quantities = [term for expression in expressions_of(value.what) for term in terms_of(expression)
                  if isinstance(term, Quantity)]
    found = {part.unit for one in quantities for part in one.parts} | {one.per.unit for one in quantities if one.per}
    unit = unit_of_value(value)
    return frozenset(found if unit is None else found | {unit})


def kind_of(value: Value) -> str | None:
    """The kind of a value (``length``, ``temperature difference``, ``count`` …); None without figures."""
    unit = unit_of_value(value)
    return None if unit is None else unit.kind


def same_kind(a: Value, b: Value) -> bool:
    """Whether both values have a kind and figures of them may be compared. Pieces are not strokes."""
    one, other = unit_of_value(a), unit_of_value(b)
    return one is not None and other is not None and same_dimensions(one, other)
