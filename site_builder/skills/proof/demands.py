"""What every proof asks of its figures beyond the guards of the trade."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite

from site_builder.formulas.errors import Impossible


def between(argument: str, value: float) -> float:
    """A share with something on both sides of it: more than 0, less than 1."""
    if not (isfinite(value) and 0 < value < 1):
        raise Impossible(argument, "share", value, "must be more than 0 and less than 1")
    return value


def counted(argument: str, part: int, of: int, whole_argument: str) -> None:
    """Some of a number: whole, not negative, not more than there were."""
    if part != int(part) or part < 0:
        raise Impossible(argument, "count", part, "must be a whole number, 0 or more")
    if part > of:
        raise Impossible(argument, "count", part, f"must not be more than the {whole_argument}, {of}")


def figures(argument: str, unit: str, values: Sequence[float], least: int) -> None:
    """A row of numbers, each one a number, and enough of them."""
    if len(values) < least:
        raise Impossible(argument, unit, f"{len(values)}", f"must be at least {least} figures")
    for value in values:
        if not isfinite(value):
            raise Impossible(argument, unit, value, "must be numbers")
