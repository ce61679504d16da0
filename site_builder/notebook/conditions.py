"""Whether two `for` can ever hold at once."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from functools import lru_cache

from site_builder.notebook.model.entry import Condition
from site_builder.quantity import Bounds, NotationError, bounds, parse_value, same_dimensions


def exclude(one: Condition, other: Condition) -> bool:
    """True where no case meets both; an empty condition always holds and excludes nothing.

    A figure in which two ranges meet does not count as a case of both.
    """
    return bool(one) and bool(other) and all(
        any(name in b and _apart(a[name], b[name]) for name in a) for a in one for b in other
    )


def figures(word: str, nouns: frozenset[str] = frozenset()) -> Bounds | None:
    """The figures of a value in a `for`: of `10..25 °C`, not of `gloss`."""
    return _figures(str(word), nouns)


@lru_cache(maxsize=4096)
def _figures(word: str, nouns: frozenset[str]) -> Bounds | None:
    try:
        return bounds(parse_value(word, nouns))
    except NotationError:
        return None


def _apart(some: Iterable[str], others: Iterable[str]) -> bool:
    return all(_differ(a, b) for a in some for b in others)


def _differ(a: str, b: str) -> bool:
    if a == b:
        return False
    one, other = figures(a), figures(b)
    if one is None or other is None:
        return True
    return same_dimensions(one.unit, other.unit) and not meet(one, other)


def meet(one: Bounds, other: Bounds) -> bool:
    """Whether some figure belongs to both. A plain quantity is a span of no width."""
    (low_a, high_a), (low_b, high_b) = span(one), span(other)
    lows = [low for low in (low_a, low_b) if low is not None]
    highs = [high for high in (high_a, high_b) if high is not None]
    if not lows or not highs or max(lows) < min(highs):
        return True
    return max(lows) == min(highs) and (low_a == high_a or low_b == high_b)


def span(found: Bounds) -> tuple[Fraction | None, Fraction | None]:
    """From where to where a value reaches: its limits, or the figure itself."""
    return (found.low, found.high) if found.limited else (found.aim_low, found.aim_high)
