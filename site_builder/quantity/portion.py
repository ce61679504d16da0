"""A share of another value in figures: `1/8 of flour` where the flour is `2 oz per batch`."""

from __future__ import annotations

from fractions import Fraction

from site_builder.quantity.units import Unit
from site_builder.quantity.value import Clause, Limits, Measure, Number, Quantity, Range, Scaled, Value

_RULED = (2, 4, 8, 16, 32, 64)
"""Parts of an inch, an ounce or a pound that people speak of."""


def share_named(value: Value) -> str | None:
    """The name of what the value is a share of; None where it is no mere share."""
    scaled = _scaled(value)
    return scaled.reference.name if scaled is not None else None


def share_in_figures(share: Value, whole: Value) -> Value | None:
    """The share worked out, with the rate and the roughness of the whole; None where the whole is no plain amount.

    `1/8 of flour` of `2 oz per batch` is `1/4 oz per batch`, `max 5 % of fat` of `about 40 kg` is `max about 2 kg`.
    """
    scaled = _scaled(share)
    if scaled is None:
        return None
    factor = scaled.factor.exact / (100 if scaled.percent else 1)
    inner, led = whole.what, None
    if isinstance(inner, Limits):
        if len(inner.clauses) != 1:
            return None
        led = inner.clauses[0]
        inner = led.what  # type: ignore[assignment]
    figure = _times(inner, factor)
    if figure is None:
        return None
    own = share.what.clauses[0] if isinstance(share.what, Limits) else None
    perhaps = share.perhaps or whole.perhaps
    if own is None and led is None:
        return Value(figure, perhaps)
    rough = (led is not None and (led.rough or led.lead == "about")) or (own is not None and own.rough)
    lead = own.lead if own is not None else led.lead if led is not None else "about"
    return Value(Limits((Clause(lead, figure, rough and lead != "about"),)), perhaps)


def _scaled(value: Value) -> Scaled | None:
    what = value.what
    if isinstance(what, Limits) and len(what.clauses) == 1:
        what = what.clauses[0].what  # type: ignore[assignment]
    return what if isinstance(what, Scaled) else None


def _times(what: object, factor: Fraction) -> Quantity | Range | None:
    if isinstance(what, Range):
        low, high = _times(what.low, factor), _times(what.high, factor)
        return Range(low, high) if isinstance(low, Quantity) and isinstance(high, Quantity) else None
    if not isinstance(what, Quantity) or len(what.parts) != 1:
        return None
    part = what.parts[0]
    return Quantity((Measure(Number(_text(part.number.exact * factor, part.unit)), part.unit),), what.per, what.lent)


def _text(figure: Fraction, unit: Unit) -> str:
    """``1-1/2`` for units that are ruled so, else three digits that count."""
    if figure.denominator == 1:
        return str(figure.numerator)
    if unit.system == "inch" and figure.denominator in _RULED and figure > 0:
        whole, rest = divmod(figure, 1)
        return f"{whole}-{rest}" if whole else str(rest)
    text = f"{float(figure):.3g}"
    return text if "e" not in text else f"{float(figure):f}".rstrip("0").rstrip(".")
