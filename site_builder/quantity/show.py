"""Values as canonical text: what ``parse_value`` reads back as the same value."""

from __future__ import annotations

from typing import assert_never

from site_builder.quantity.units import COUNT, Unit
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
    Number,
    Per,
    Quantity,
    Range,
    Reference,
    Same,
    Scaled,
    Some,
    Sweep,
    Toleranced,
    Value,
    What,
    Word,
)


def is_single(number: Number) -> bool:
    """Whether a noun after the number stands in the singular: 1, or a part of one."""
    text = number.text.lstrip("-")
    return text == "1" or ("/" in text and "-" not in text)


def show_unit(unit: Unit, number: Number) -> str:
    """The unit as written after this number."""
    return unit.named(is_single(number))


def show_per(per: Per) -> str:
    """``per piece``, ``per 120 pieces``."""
    if per.number is None:
        return f"per {per.unit.named(True)}"
    return f"per {per.number.text} {show_unit(per.unit, per.number)}"


def show_quantity(quantity: Quantity) -> str:
    """``2 h 30 min``, ``9 g per piece``; only the number where the unit is lent."""
    if quantity.lent:
        return quantity.parts[0].number.text
    told = " ".join(
        part.number.text if part.unit is COUNT else f"{part.number.text} {show_unit(part.unit, part.number)}"
        for part in quantity.parts
    )
    return told if quantity.per is None else f"{told} {show_per(quantity.per)}"


def show_expression(expression: Expression) -> str:
    """An expression as written."""
    if isinstance(expression, Quantity):
        return show_quantity(expression)
    if isinstance(expression, Reference):
        return f"[{expression.name}]" if expression.bracketed else expression.name
    if isinstance(expression, Scaled):
        percent = " %" if expression.percent else ""
        return f"{expression.factor.text}{percent} {expression.by} {show_expression(expression.reference)}"
    if isinstance(expression, Same):
        return f"same {expression.period}"
    if isinstance(expression, Computed):
        rest = "".join(f" {operator} {show_expression(term)}" for operator, term in expression.rest)
        return show_expression(expression.first) + rest
    assert_never(expression)


def show_range(low: Expression, high: Expression) -> str:
    """Two ends; a unit that both share is written once."""
    if isinstance(low, Quantity) and isinstance(high, Quantity):
        alike = low.parts[0].unit is high.parts[0].unit and low.per == high.per
        if alike and len(low.parts) == len(high.parts) == 1 and low.lent != high.lent:
            # The lender stands last, whichever of the two it was.
            return f"{low.parts[0].number.text}..{show_quantity(Quantity(high.parts, high.per))}"
    return f"{show_expression(low)}..{show_expression(high)}"


def show_clause(clause: Clause) -> str:
    """One leading word with what it leads."""
    what = clause.what
    lead = f"{clause.lead}{' perhaps' if clause.perhaps else ''}{' about' if clause.rough else ''}"
    if isinstance(what, Ask | Some):
        return f"{lead} {show_what(what)}"
    if isinstance(what, Range):
        return f"{lead} {show_range(what.low, what.high)}"
    if isinstance(what, Choice):
        options = " or ".join(show_expression(option) for option in what.options)
        return f"{lead} {options} whichever is {what.whichever}"
    return f"{lead} {show_expression(what)}"


def show_deviation(number: Number) -> str:
    """A deviation with its sign; nought has none."""
    return number.text if number.text[0] == "-" or number.exact == 0 else f"+{number.text}"


def show_what(what: What) -> str:
    """What was written, without ``perhaps``."""
    if isinstance(what, Ask):
        return "ask"
    if isinstance(what, Some):
        return f"some {what.unit.named(False)}"
    if isinstance(what, Judged):
        return f"{what.how} {what.words}".rstrip()
    if isinstance(what, Sweep):
        return f"from {show_expression(what.start)} to {show_expression(what.end)}"
    if isinstance(what, Limits):
        return "; ".join(show_clause(clause) for clause in what.clauses)
    if isinstance(what, Range):
        return show_range(what.low, what.high)
    if isinstance(what, Toleranced):
        unit = show_unit(what.unit, what.nominal)
        if what.even:
            return f"{what.nominal.text} ±{what.upper.text} {unit}"
        return f"{what.nominal.text} {show_deviation(what.upper)}/{show_deviation(what.lower)} {unit}"
    if isinstance(what, Deviation):
        return f"±{show_quantity(what.quantity)}"
    if isinstance(what, Fit):
        return f"{what.size.text} {what.letters}{what.grade} {what.unit.symbol}"
    if isinstance(what, Word):
        return what.text
    return show_expression(what)


def doubts_a_clause(value: Value) -> bool:
    """Whether the doubt is told at one of its clauses, and so not before the whole."""
    return isinstance(value.what, Limits) and any(clause.perhaps for clause in value.what.clauses)


def show_value(value: Value) -> str:
    """The value as canonical text. ``parse_value`` reads it back equal."""
    told = show_what(value.what)
    return f"perhaps {told}" if value.perhaps and not doubts_a_clause(value) else told
