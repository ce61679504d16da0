"""Whether the figures of a value agree: one kind, one system of units, low before high, the aim between."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from site_builder.quantity.errors import Code, NotationError
from site_builder.quantity.measure import base_amount, expression_unit, terms_of, unit_of
from site_builder.quantity.show import show_expression, show_range
from site_builder.quantity.units import Unit, same_dimensions
from site_builder.quantity.value import (
    Ask,
    Choice,
    Clause,
    Computed,
    Expression,
    Lead,
    Limits,
    Quantity,
    Range,
    Some,
    Sweep,
)

_FLOORS: tuple[Lead, ...] = ("min", "over")
_CEILINGS: tuple[Lead, ...] = ("max", "under")
_AIMS: tuple[Lead, ...] = ("aim", "about")


class Disorder(Exception):  # not an error of the program: the parser turns it into a NotationError
    """Figures that do not agree: the code and message of the error to be raised, and the mended text."""

    def __init__(self, code: Code, message: str, fix: str = "") -> None:
        super().__init__(message)
        self.code: Code = code
        self.message = message
        self.fix = fix

    def error(self, start: int, end: int) -> NotationError:
        """The error about this stretch of the text."""
        return NotationError(self.code, self.message, fix=self.fix, start=start, end=end)


def _plain(expression: Expression) -> Quantity | None:
    return expression if type(expression) is Quantity else None


def _simple(a: Quantity, b: Quantity) -> bool:
    """Whether two quantities differ in one number only: the common case, compared without conversion."""
    return a.parts[0].unit is b.parts[0].unit and len(a.parts) == len(b.parts) == 1 and a.per == b.per


def _figure(quantity: Quantity) -> Decimal | Fraction:
    number = quantity.parts[0].number
    return number.exact if "/" in number.text else Decimal(number.text)


def exceeds(a: Expression, b: Expression) -> bool:
    """Whether a is over b; false where that cannot be told without looking up names."""
    one, other = _plain(a), _plain(b)
    if one is None or other is None:
        return False
    if _simple(one, other):
        return _figure(one) > _figure(other)
    if not same_dimensions(unit_of(one), unit_of(other)):
        return False
    return base_amount(one) > base_amount(other)


def equals(a: Expression, b: Expression) -> bool:
    """Whether both are quantities and of the same size."""
    return _plain(a) is not None and _plain(b) is not None and not exceeds(a, b) and not exceeds(b, a)


def _told(expression: Expression) -> str:
    quantity = _plain(expression)
    return show_expression(expression if quantity is None else Quantity(quantity.parts, quantity.per))


def check_sum(expression: Expression) -> None:
    """Refuse a sum of unlike kinds: 5 mm plus 3 kg."""
    if type(expression) is not Computed or any(operator in ("x", "/") for operator, _ in expression.rest):
        return
    units = [unit_of(term) for term in terms_of(expression) if isinstance(term, Quantity)]
    for unit in units[1:]:
        kinds = {unit.kind, units[0].kind}
        if not same_dimensions(unit, units[0]) and kinds != {"temperature", "temperature difference"}:
            raise Disorder("value-broken", f"{units[0].kind} and {unit.kind} cannot be added.")


def check_alike(expressions: list[Expression]) -> None:
    """Refuse figures of two kinds, or in both metric and inch units."""
    first: Unit | None = None
    for expression in expressions:
        check_sum(expression)
        unit = expression_unit(expression)
        if unit is None or unit is first:
            continue
        if first is None:
            first = unit
        elif not same_dimensions(unit, first):
            raise Disorder(
                "range-mixed",
                f"{_shown(first)} and {_shown(unit)} cannot be compared: one kind of unit for all.",
            )
        elif unit.system and first.system and unit.system != first.system:
            raise Disorder(
                "range-mixed", f"{_shown(first)} and {_shown(unit)}: write all in one system of units."
            )


def _shown(unit: Unit) -> str:
    return f"`{unit.named(False)}`" if unit.symbol else "a bare count"


def check_range(found: Range, whole: bool = True) -> None:
    """Refuse a range that runs backward: 30..12 °C."""
    if exceeds(found.low, found.high):
        fix = show_range(found.high, found.low)
        raise Disorder("range-backward", f"The range runs backward: write `{fix}`.", fix if whole else "")


def check_sweep(found: Sweep) -> None:
    """Refuse a sweep between two kinds."""
    check_alike([found.start, found.end])


def _ends(clause: Clause) -> tuple[Expression | None, Expression | None]:
    """The lowest and the highest of a clause."""
    what = clause.what
    if isinstance(what, Range):
        return what.low, what.high
    if isinstance(what, Ask | Some | Choice):
        return None, None
    return what, what


def check_limits(limits: Limits) -> None:
    """Refuse clauses that contradict each other."""
    expressions: list[Expression] = []
    for clause in limits.clauses:
        what = clause.what
        if isinstance(what, Range):
            check_range(what, whole=False)
            expressions += (what.low, what.high)
        elif isinstance(what, Choice):
            expressions += what.options
        elif not isinstance(what, Ask | Some):
            expressions.append(what)
    check_alike(expressions)
    if len(limits.clauses) == 1:
        return
    for floor in (c for c in limits.clauses if c.lead in _FLOORS):
        for ceiling in (c for c in limits.clauses if c.lead in _CEILINGS):
            low, high = _ends(floor)[0], _ends(ceiling)[1]
            if low is None or high is None:
                continue
            shut = floor.lead == "over" or ceiling.lead == "under"
            if exceeds(low, high) or (shut and equals(low, high)):
                raise Disorder(
                    "range-backward",
                    f"Nothing lies between {floor.lead} {_told(low)} and {ceiling.lead} {_told(high)}.",
                )
    for aim in (c for c in limits.clauses if c.lead in _AIMS):
        lowest, highest = _ends(aim)
        if lowest is None or highest is None:
            continue
        for side in limits.clauses:
            bound = _ends(side)[0] if side.lead in _FLOORS else _ends(side)[1]
            if bound is None:
                continue
            low_missed = side.lead in _FLOORS and (exceeds(bound, lowest))
            high_missed = side.lead in _CEILINGS and (exceeds(highest, bound))
            shut = (side.lead == "over" and equals(bound, lowest)) or (
                side.lead == "under" and equals(bound, highest)
            )
            if low_missed or high_missed or shut:
                told = _told(highest if side.lead in _CEILINGS else lowest)
                raise Disorder("aim-outside", f"{aim.lead} {told} lies outside {side.lead} {_told(bound)}.")
