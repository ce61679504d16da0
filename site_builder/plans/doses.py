"""What a second of each work uses up of a day's allowance of noise and shaking.

The allowance is the action value, or what the shop sets. Noise adds up by energy (ISO 9612, Directive 2003/10/EC),
shaking by the square (ISO 5349-1, Directive 2002/44/EC); both then are sums of parts.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil

from site_builder.figures.at_machines import strongest
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.formulas.errors import Impossible
from site_builder.notebook.model.parsed_values import Written
from site_builder.quantity import bounds
from site_builder.safety.noise import SHIFT
from site_builder.safety.verdict import NOISE_EU, VIBRATION
from site_builder.season.problem import FULL_DOSE

_SHIFT_SECONDS = SHIFT * 3_600
UPPER_ACTION = NOISE_EU.marks[1].value
"""dB(A), the upper action value of Directive 2003/10/EC."""
ACTION = VIBRATION.marks[0].value
"""m/s² A(8), the action value of Directive 2002/44/EC."""


def limits(known: FigureInputs) -> tuple[float, float]:
    """The daily noise in dB(A) and vibration in m/s² that nobody is planned over."""
    shop = known.notebook.shop
    planning = shop.planning if shop is not None else None
    return (_told(planning.noise if planning is not None else None, UPPER_ACTION),
            _told(planning.vibration if planning is not None else None, ACTION))


def _told(leaf: Written | None, usual: float) -> float:
    found = bounds(leaf.value) if leaf is not None else None
    ends = () if found is None else (found.high, found.aim_high, found.low)
    told = next((float(end) for end in ends if end is not None), usual)
    return told if told > 0 else usual


def doses_of(known: FigureInputs, procedure: str) -> Mapping[str, int]:
    """Parts of ``FULL_DOSE`` a second, rounded up; what cannot be is told elsewhere and left out here."""
    noise, shaking = limits(known)
    found: dict[str, int] = {}
    try:
        loud, shaky = strongest(known, procedure, "noise"), strongest(known, procedure, "vibration")
    except Impossible:
        return found
    if loud is not None:
        share = 10 ** ((loud.given.span.high - noise) / 10) * loud.share.high
        found["noise"] = ceil(FULL_DOSE * share / _SHIFT_SECONDS)
    if shaky is not None:
        share = (shaky.given.span.high / shaking) ** 2 * shaky.share.high
        found["vibration"] = ceil(FULL_DOSE * share / _SHIFT_SECONDS)
    return {name: part for name, part in found.items() if part > 0}
