"""The multipliers of the revised NIOSH lifting equation, each from one feature of a lift, in either set of units.

The two sets are not conversions of each other: 23 kg is 50.7 lb and not 51. The formulas are used and not the
tables made from them, which are rounded to two places and print 0.46 and 0.44 at 22 and 23 in where the formula
gives 0.455 and 0.435, and 0.86 at 130 cm where it gives 0.855.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible

Duration = Literal["short", "moderate", "long"]
"""Up to one hour, up to two, up to eight: with rest or light work after it, see ``duration_of``."""
Coupling = Literal["good", "fair", "poor"]
"""How the hands hold: handles; fingers bent under a box; loose parts, bags, edges that cut."""


@dataclass(frozen=True, slots=True)
class LiftUnits:
    """The constants of the equation in one set of units (NIOSH 94-110, section 1.3)."""

    length: str
    mass: str
    constant: float
    reach_least: float
    reach_most: float
    knuckles: float
    height_slope: float
    height_most: float
    travel_least: float
    travel_most: float
    travel_slope: float


METRIC = LiftUnits("cm", "kg", 23, 25, 63, 75, 0.003, 175, 25, 175, 4.5)
US = LiftUnits("in", "lb", 51, 10, 25, 30, 0.0075, 70, 10, 70, 1.8)

TWIST_MOST = 135.0
FEWEST = 0.2
MOST_OFTEN = 15.0

# Lifts a minute; then by duration, hands starting under 75 cm (30 in) and from there up. NIOSH 94-110, Table 5;
# rows 1, 3, 7, 12, 14 and 15 from memory.
_FREQUENCY: dict[float, tuple[float, float, float, float, float, float]] = {
    0.2: (1.00, 1.00, 0.95, 0.95, 0.85, 0.85),
    0.5: (0.97, 0.97, 0.92, 0.92, 0.81, 0.81),
    1: (0.94, 0.94, 0.88, 0.88, 0.75, 0.75),
    2: (0.91, 0.91, 0.84, 0.84, 0.65, 0.65),
    3: (0.88, 0.88, 0.79, 0.79, 0.55, 0.55),
    4: (0.84, 0.84, 0.72, 0.72, 0.45, 0.45),
    5: (0.80, 0.80, 0.60, 0.60, 0.35, 0.35),
    6: (0.75, 0.75, 0.50, 0.50, 0.27, 0.27),
    7: (0.70, 0.70, 0.42, 0.42, 0.22, 0.22),
    8: (0.60, 0.60, 0.35, 0.35, 0.18, 0.18),
    9: (0.52, 0.52, 0.30, 0.30, 0.00, 0.15),
    10: (0.45, 0.45, 0.26, 0.26, 0.00, 0.13),
    11: (0.41, 0.41, 0.00, 0.23, 0.00, 0.00),
    12: (0.37, 0.37, 0.00, 0.21, 0.00, 0.00),
    13: (0.00, 0.34, 0.00, 0.00, 0.00, 0.00),
    14: (0.00, 0.31, 0.00, 0.00, 0.00, 0.00),
    15: (0.00, 0.28, 0.00, 0.00, 0.00, 0.00),
}
DURATIONS: tuple[Duration, ...] = ("short", "moderate", "long")
COUPLINGS: dict[Coupling, tuple[float, float]] = {"good": (1.0, 1.0), "fair": (0.95, 1.0), "poor": (0.9, 0.9)}


def reach_multiplier(reach: float, units: LiftUnits = METRIC) -> float:
    """How far the hands are before the ankles: 1 close to the body, falling as it is reached out; 0 beyond 63 cm.

    Raises ``Impossible`` for a reach of nothing. Source: HM = 25 / H, NIOSH 94-110, 1.3.
    """
    guards.above_zero("reach", units.length, reach)
    return 0.0 if reach > units.reach_most else units.reach_least / max(reach, units.reach_least)


def height_multiplier(height: float, units: LiftUnits = METRIC) -> float:
    """How high the hands are: 1 at the height of the knuckles, falling to both sides; 0 over 175 cm.

    Raises ``Impossible`` under the floor. Source: VM = 1 - 0.003 |V - 75|, NIOSH 94-110, 1.3.
    """
    guards.not_negative("height of the hands", units.length, height)
    return 0.0 if height > units.height_most else 1 - units.height_slope * abs(height - units.knuckles)


def travel_multiplier(travel: float, units: LiftUnits = METRIC) -> float:
    """How far up or down it goes: 1 for up to 25 cm, less for more; 0 over 175 cm.

    Raises ``Impossible`` for a travel under 0. Source: DM = 0.82 + 4.5 / D, NIOSH 94-110, 1.3.
    """
    guards.not_negative("vertical travel", units.length, travel)
    return 0.0 if travel > units.travel_most else 0.82 + units.travel_slope / max(travel, units.travel_least)


def twist_multiplier(twist: float) -> float:
    """How far to the side of straight ahead the load is, in degrees: 1 straight ahead; 0 over 135°.

    Raises ``Impossible`` for an angle under 0 or over 180. Source: AM = 1 - 0.0032 A, NIOSH 94-110, 1.3.
    """
    if guards.not_negative("twist", "°", twist) > 180:
        raise Impossible("twist", "°", twist, "must lie between 0 and 180")
    return 0.0 if twist > TWIST_MOST else 1 - 0.0032 * twist


def frequency_multiplier(per_minute: float, duration: Duration, low: bool) -> float:
    """How often and how long: 1 for a lift now and then; 0 where it is too often at all.

    ``low`` if the hands begin under 75 cm (30 in). Less than one lift in five minutes counts as one; between the
    rows of the table a straight line, but above the last rate that is allowed nothing is. Raises ``Impossible`` for a
    rate under 0 or a duration that is none. Source: NIOSH 94-110, Table 5.
    """
    guards.one_of("duration", duration, DURATIONS)
    if guards.not_negative("lifts", "per minute", per_minute) > MOST_OFTEN:
        return 0.0
    column = 2 * DURATIONS.index(duration) + (0 if low else 1)
    rate = max(per_minute, FEWEST)
    for slower, faster in pairwise(_FREQUENCY):
        if rate <= faster:
            part = (rate - slower) / (faster - slower)
            here, there = _FREQUENCY[slower][column], _FREQUENCY[faster][column]
            if not there:
                return here if part == 0 else 0.0
            return here * (1 - part) + there * part
    return _FREQUENCY[MOST_OFTEN][column]


def coupling_multiplier(coupling: Coupling, low: bool) -> float:
    """How the hands hold it; ``low`` if they are under 75 cm (30 in).

    Raises ``Impossible`` for a hold that is none. Source: NIOSH 94-110, Table 7.
    """
    return COUPLINGS[guards.one_of("hold of the hands", coupling, COUPLINGS)][0 if low else 1]


def duration_of(work: float, rest: float) -> Duration:
    """Which duration ``work`` minutes of lifting count as, with ``rest`` minutes of light work or a break after it.

    Short is up to an hour with a rest as long as the work (the printing of 1994 asked for 1.2 times as long);
    moderate up to two hours with three tenths of it; else long. Raises ``Impossible`` for times under 0 or more
    than eight hours of lifting. Source: NIOSH 94-110, revised September 2021, 1.3.
    """
    guards.not_negative("rest after the lifting", "min", rest)
    if guards.not_negative("time of lifting", "min", work) > 480:
        raise Impossible("time of lifting", "min", work, "must be at most 480: the equation knows no longer day")
    if work <= 60 and rest >= work:
        return "short"
    return "moderate" if work <= 120 and rest >= 0.3 * work else "long"


def spread_rate(per_minute: float, work: float, window: float = 15.0) -> float:
    """Lifts per minute to reckon with when one lifts for ``work`` of each ``window`` minutes, then does lighter work.

    Raises ``Impossible`` for a rate or time under 0, or more work than the window has. Source: NIOSH 94-110,
    special frequency adjustment; one of its two examples is printed 3.4 where the quotient is 3.33.
    """
    guards.above_zero("window", "min", window)
    if guards.not_negative("time of lifting", "min", work) > window:
        raise Impossible("time of lifting", "min", work, f"must fit into the window of {window:g}")
    return guards.not_negative("lifts", "per minute", per_minute) * work / window
