"""A value as a share of a whole: ``4 %``, ``9 pieces per 200 pieces``."""

from __future__ import annotations

from fractions import Fraction

from site_builder.quantity.value import Clause, Limits, Quantity, Value


def share(value: Value) -> Fraction | None:
    """The share a value tells, from 0 to 1; None where it tells none, or one beyond the whole.

    A rough figure (``about 5 pieces per 100 pieces``) tells a share too, a limit on one side does not.
    """
    what: object = value.what
    if isinstance(what, Limits) and len(what.clauses) == 1 and what.clauses[0].lead in ("about", "aim"):
        what = _led(what.clauses[0])
    if not isinstance(what, Quantity) or len(what.parts) != 1:
        return None
    figure, unit = what.parts[0].number.exact, what.parts[0].unit
    if what.per is None:
        part = figure / 100 if unit.symbol == "%" else None
    elif not unit.counted or what.per.unit != unit or what.per.number is None or not what.per.number.exact:
        part = None
    else:
        part = figure / what.per.number.exact
    return part if part is not None and 0 <= part <= 1 else None


def _led(clause: Clause) -> Quantity | None:
    return clause.what if isinstance(clause.what, Quantity) else None
