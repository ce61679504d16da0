"""An amount with what it is counted by: `9 g per piece`, `about 1 sheet per 8 pieces`, `30 g per lot`."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from site_builder.batch.span import Span
from site_builder.notebook.model.parsed_values import Written
from site_builder.quantity import Clause, Limits, Quantity, Range, Unit, Value, base_amount


@dataclass(frozen=True, slots=True)
class Amount:
    """``span`` in the base unit of ``unit``, for ``per_count`` of ``per`` (None where nothing is said)."""

    span: Span
    unit: Unit
    per: Unit | None
    per_count: Fraction

    @property
    def noun(self) -> str:
        """What it is for: ``piece``, ``lot``, ``h``; empty where nothing is said."""
        return self.per.symbol if self.per is not None else ""


def amount_of(leaf: Written | None) -> Amount | None:
    """The amount that is usual; None where no figure is told."""
    return amount_in(leaf.value) if leaf is not None else None


def amount_in(value: Value | None) -> Amount | None:
    """The same of a value that stands nowhere as it is, such as a share worked out."""
    if value is None:
        return None
    rough, what = value.perhaps, value.what
    if isinstance(what, Limits):
        usual: Clause | None = next((c for c in what.clauses if c.lead in ("aim", "about")), what.clauses[0])
        if usual is None:
            return None
        rough = rough or usual.lead == "about"
        what = usual.what  # type: ignore[assignment]
    ends = (what.low, what.high) if isinstance(what, Range) else (what, what)
    low, high = ends
    if not isinstance(low, Quantity) or not isinstance(high, Quantity):
        return None
    per = high.per or low.per
    amounts = [base_amount(Quantity(end.parts)) for end in (low, high)]
    unit = high.parts[0].unit
    count = per.number.exact if per is not None and per.number is not None else Fraction(1)
    return Amount(Span(min(amounts), max(amounts), rough), unit, per.unit if per is not None else None, count)
