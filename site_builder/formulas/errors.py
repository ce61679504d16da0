"""The one error of all arithmetic: a number that cannot be."""

from __future__ import annotations

from numbers import Real


class Impossible(ValueError):
    """A figure that nothing in the shop can have: a negative length, a yield over 100 %, an empty chain.

    ``argument`` names what was given in plain words, ``unit`` the unit it is given in ("" for bare numbers and
    words), ``value`` what was given, ``why`` what it must be. Faces turn it into a finding at the line that
    wrote the figure.
    """

    def __init__(self, argument: str, unit: str, value: object, why: str) -> None:
        self.argument, self.unit, self.value, self.why = argument, unit, value, why
        named = f"{argument} ({unit})" if unit else argument
        given = f"{float(value):g}" if isinstance(value, Real) else str(value)
        super().__init__(f"{named} {why}, not {given}")
