"""Whether what was said can hold together with what is written, or with what was said before."""

from __future__ import annotations

from fractions import Fraction

from site_builder.quantity import Bounds, Value, bounds, same_kind

_ROUGH = Fraction(1, 10)
"""So far *about* reaches to either side (our own choice)."""


def contradicts(written: Value, said: Value) -> bool | None:
    """True where not both can hold; None where they cannot be compared (other kinds, words, figures not told).

    Two bounds on the same side must be the same; a figure must lie within the bounds of the other.
    """
    one, other = bounds(written), bounds(said)
    if one is None or other is None or not same_kind(written, said) or one.relative != other.relative:
        return None
    for a, b in ((one.low, other.low), (one.high, other.high)):
        if a is not None and b is not None and a != b and not (one.rough or other.rough):
            return True
    reach, with_other = _reach(one), _reach(other)
    if reach is None or with_other is None:
        return None
    (low, high), (other_low, other_high) = reach, with_other
    return (high is not None and other_low is not None and high < other_low) or (
        low is not None and other_high is not None and other_high < low
    )


def _reach(one: Bounds) -> tuple[Fraction | None, Fraction | None] | None:
    """From where to where it goes, *about* included; None where nothing of it is told."""
    low = one.low if one.limited else one.aim_low
    high = one.high if one.limited else one.aim_high
    if low is None and high is None:
        return None
    if one.rough:
        low = None if low is None else low - abs(low) * _ROUGH
        high = None if high is None else high + abs(high) * _ROUGH
    return low, high
