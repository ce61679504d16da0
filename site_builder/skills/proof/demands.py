"""What every proof asks of its figures beyond the guards of the trade."""

from __future__ import annotations

from collections.abc import Sequence

from site_builder.formulas.errors import Impossible
from site_builder.formulas.guards import finite, whole


def between(argument: str, value: float) -> float:
    """A share with something on both sides of it: more than 0, less than 1."""
    if not 0 < finite(argument, "share", value) < 1:
        raise Impossible(argument, "share", value, "must be more than 0 and less than 1")
    return value


def counted(argument: str, part: int, of: int, whole_argument: str) -> None:
    """Some of a number: whole, not negative, not more than there were."""
    if whole(argument, part) > of:
        raise Impossible(argument, "count", part, f"must not be more than the {whole_argument}, {of}")


def figures(argument: str, unit: str, values: Sequence[float], least: int) -> None:
    """A row of numbers, each one a number, and enough of them."""
    if len(values) < least:
        raise Impossible(argument, unit, f"{len(values)}", f"must be at least {least} figures")
    for value in values:
        finite(argument, unit, value)


def verdicts(argument: str, good: Sequence[bool]) -> Sequence[bool]:
    """A row of pieces, each good or not, and nothing else: a word like "bad" would count as good."""
    for one in good:
        if not isinstance(one, bool):
            raise Impossible(argument, "", one, "must each be good or not, true or false")
    return good
