"""The two scales of temperature, and a number written in the wrong one."""

from __future__ import annotations

from typing import Literal

from site_builder.formulas import guards
from site_builder.formulas.interval import Interval

Scale = Literal["°C", "°F"]


def celsius(fahrenheit: float) -> float:
    """°C of a temperature in °F. Raises ``Impossible`` under absolute zero.

    Source: by definition, 32 °F = 0 °C and 180 °F = 100 K; NIST SP 811, appendix B.8.
    """
    guards.finite("temperature", "°F", fahrenheit)
    return guards.temperature("temperature", (fahrenheit - 32) / 1.8)


def fahrenheit(celsius: float) -> float:
    """°F of a temperature in °C. Raises ``Impossible`` under absolute zero.

    Source: as ``celsius``.
    """
    return guards.temperature("temperature", celsius) * 1.8 + 32


def meant_in_other_scale(number: float, written: Scale, sensible: Interval) -> float | None:
    """The temperature in °C that was meant, if the number makes sense only in the scale it was not written in.

    ``sensible`` is the range in °C in which the work lies. None where the number makes sense as written, or in
    neither scale. Raises ``Impossible`` for a number under absolute zero in its own scale.

    >>> meant_in_other_scale(800, "°C", Interval(404, 500))
    426.66666666666663

    Source: the two scales, as ``celsius``.
    """
    guards.one_of("scale", written, ("°C", "°F"))
    as_written = guards.temperature("temperature", number) if written == "°C" else celsius(number)
    if as_written in sensible:
        return None
    other = (number - 32) / 1.8 if written == "°C" else number
    return other if other in sensible else None
