"""What a second of each work uses up of a day's allowance of noise, shaking and weight lifted.

The allowance is the action value, or what the shop sets. Noise adds up by energy (ISO 9612, Directive 2003/10/EC),
shaking by the square (ISO 5349-1, Directive 2002/44/EC); weight by itself (ISO 11228-1). All then are sums of parts.
"""

from __future__ import annotations

from collections.abc import Mapping
from math import ceil
from typing import NamedTuple

from site_builder.figures.at_machines import strongest
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.lifts import Lifted, lifts
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
CUMULATED = 10_000.0
"""kg that one person may lift by hand in a day, all lifts together, where everything else is ideal (ISO 11228-1, the
cumulative mass of a day; from memory). What a single lift may weigh is another matter. Made for grown people."""


class Allowed(NamedTuple):
    """The daily noise in dB(A), vibration in m/s² and kg lifted that nobody is planned over."""

    noise: float
    vibration: float
    lifting: float


def limits(known: FigureInputs) -> Allowed:
    """What the shop sets, or else the action values and the cumulative mass."""
    shop = known.notebook.shop
    planning = shop.planning if shop is not None else None
    if planning is None:
        return Allowed(UPPER_ACTION, ACTION, CUMULATED)
    return Allowed(_told(planning.noise, UPPER_ACTION), _told(planning.vibration, ACTION),
                   _told(planning.lifting, CUMULATED))


def _told(leaf: Written | None, usual: float) -> float:
    found = bounds(leaf.value) if leaf is not None else None
    ends = () if found is None else (found.high, found.aim_high, found.low)
    told = next((float(end) for end in ends if end is not None), usual)
    return told if told > 0 else usual


def doses_of(known: FigureInputs, procedure: str, each: int) -> Mapping[str, int]:
    """Parts of ``FULL_DOSE`` a second, rounded up, of work of ``each`` seconds a piece; what cannot be is told
    elsewhere and left out here."""
    noise, shaking, mass = limits(known)
    found: dict[str, int] = {}
    lifted = sum(_lifted(one, each) for one in lifts(known) if one.procedure.procedure == procedure)
    if lifted:
        found["lifting"] = ceil(FULL_DOSE * lifted / mass)
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


def _lifted(one: Lifted, each: int) -> float:
    """kg a second: as often as is told, else once a piece. What is lifted once a lot or now and then is not counted."""
    if one.between is None:
        return 0.0
    seconds = one.between.span.low or float(each)
    return one.load.span.high / seconds if seconds else 0.0
