"""How deep a screw must go so that it breaks before the threads in soft metal tear out.

In zinc alloys the answer is a lower bound. They creep: a screw pulled hard against zinc loses part of its pull
within weeks, sooner in warmth, and porous casting bears less than the bar its strength was measured on. Common
practice is two to two and a half diameters of full thread in die-cast zinc, and steel inserts where a screw is
taken out often.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from site_builder.formulas import guards
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval

IN_ZINC = Interval(2.0, 2.5)
"""Diameters of full thread for steel in die-cast zinc: common practice, as tool makers print it."""

SHEAR_OF_TENSILE = 0.5
"""Shear strength to reckon with when only the tensile strength is known (Industrial Fasteners Institute,
Calculating Thread Strength, as told by Design News)."""

_TAN_30 = 0.57735


@dataclass(frozen=True, slots=True)
class Thread:
    """A screw thread of 60° and its worst mating sizes in mm: thinnest screw in the widest hole."""

    diameter: float
    pitch: float
    screw_major_least: float
    screw_pitch_least: float
    hole_pitch_most: float
    hole_minor_most: float

    def __post_init__(self) -> None:
        guards.above_zero("pitch", "mm", self.pitch)
        guards.above_zero("diameter", "mm", self.diameter)
        guards.above_zero("outside of the screw", "mm", self.screw_major_least)
        guards.above_zero("pitch diameter of the screw", "mm", self.screw_pitch_least)
        guards.above_zero("pitch diameter of the hole", "mm", self.hole_pitch_most)
        guards.above_zero("smallest hole of the thread", "mm", self.hole_minor_most)
        if not self.hole_minor_most < self.screw_major_least <= self.diameter:
            raise Impossible(
                "outside of the screw", "mm", self.screw_major_least, "must lie between the hole and the diameter"
            )
        if not self.hole_minor_most < self.hole_pitch_most < self.screw_major_least:
            raise Impossible(
                "pitch diameter of the hole", "mm", self.hole_pitch_most, "must lie between the hole and the screw"
            )


# Pitches in mm by diameter in mm, the coarse one first: ISO 261, those of 0.35 mm and more.
_PITCHES: dict[float, tuple[float, ...]] = {
    2: (0.4,), 2.5: (0.45, 0.35), 3: (0.5, 0.35), 3.5: (0.6, 0.35), 4: (0.7, 0.5), 5: (0.8, 0.5), 6: (1.0, 0.75),
    8: (1.25, 1.0, 0.75), 10: (1.5, 1.25, 1.0, 0.75), 12: (1.75, 1.5, 1.25, 1.0), 14: (2.0, 1.5, 1.25, 1.0),
    16: (2.0, 1.5, 1.0), 18: (2.5, 2.0, 1.5, 1.0), 20: (2.5, 2.0, 1.5, 1.0), 22: (2.5, 2.0, 1.5, 1.0),
    24: (3.0, 2.0, 1.5, 1.0),
}
# In µm by pitch: the screw's upper deviation g and the tolerance of its outside (6g), the tolerance of the hole's
# inner diameter (6H): ISO 965-1, from memory; the tests hold what follows from it against published sizes and areas.
_BY_PITCH: dict[float, tuple[int, int, int]] = {
    0.35: (19, 85, 100), 0.4: (19, 95, 112), 0.45: (20, 100, 125), 0.5: (20, 106, 140), 0.6: (21, 125, 160),
    0.7: (22, 140, 180), 0.75: (22, 140, 190), 0.8: (24, 150, 200), 1.0: (26, 180, 236), 1.25: (28, 212, 265),
    1.5: (32, 236, 300), 1.75: (34, 265, 335), 2.0: (38, 280, 375), 2.5: (42, 335, 450), 3.0: (48, 375, 500),
}
# In µm, up to a diameter and by pitch: the tolerances of the pitch diameter of screw (6g) and hole (6H). Likewise.
_OF_PITCH_DIAMETER: dict[float, dict[float, tuple[int, int]]] = {
    2.8: {0.35: (63, 85), 0.4: (67, 90), 0.45: (71, 95)},
    5.6: {0.35: (67, 90), 0.5: (75, 100), 0.6: (85, 112), 0.7: (90, 118), 0.8: (95, 125)},
    11.2: {0.75: (100, 132), 1.0: (112, 150), 1.25: (118, 160), 1.5: (132, 180)},
    22.4: {1.0: (118, 160), 1.25: (132, 180), 1.5: (140, 190), 1.75: (150, 200), 2.0: (160, 212), 2.5: (170, 224)},
    45: {1.0: (125, 170), 1.5: (150, 200), 2.0: (170, 224), 3.0: (200, 265)},
}


def metric(diameter: float, pitch: float | None = None) -> Thread:
    """The metric thread of ``diameter`` and ``pitch`` mm, coarse where no pitch is told; screw 6g in hole 6H.

    Diameters are 2, 2.5, 3, 3.5, 4, 5, 6, 8, 10 and every second to 24, with the fine pitches of ISO 261 from 0.35 mm.
    Raises ``Impossible`` for any other. Source: ISO 261 and ISO 965-1.
    """
    if diameter not in _PITCHES:
        sizes = ", ".join(f"{one:g}" for one in _PITCHES)
        raise Impossible("thread", "mm", diameter, f"must be one of the metric sizes {sizes}")
    pitches = _PITCHES[diameter]
    pitch = pitches[0] if pitch is None else pitch
    if pitch not in pitches:
        said = ", ".join(f"{one:g}" for one in pitches)
        raise Impossible("pitch", "mm", pitch, f"must be one of those of M{diameter:g}: {said}")
    gap, major, minor = _BY_PITCH[pitch]
    pitch_screw, pitch_hole = next(row for most, row in _OF_PITCH_DIAMETER.items() if diameter <= most)[pitch]
    # ISO 724 rounds the basic sizes to the micrometre before the tolerances are laid on.
    pitch_diameter = round(diameter - 0.649519 * pitch, 3)
    minor_diameter = round(diameter - 1.082532 * pitch, 3)
    return Thread(
        diameter,
        pitch,
        diameter - (gap + major) / 1000,
        pitch_diameter - (gap + pitch_screw) / 1000,
        pitch_diameter + pitch_hole / 1000,
        minor_diameter + minor / 1000,
    )


def hole_thread_area(thread: Thread, engagement: float) -> float:
    """Square millimetres of the hole's thread that must shear off, over ``engagement`` mm of full thread.

    Raises ``Impossible`` for an engagement of nothing. Source: FED-STD-H28/2B and Machinery's Handbook,
    An = pi n Le Ds,min (1/2n + 0.57735 (Ds,min - En,max)).
    """
    guards.above_zero("engagement", "mm", engagement)
    outside = thread.screw_major_least
    overlap = thread.pitch / 2 + _TAN_30 * (outside - thread.hole_pitch_most)
    return pi / thread.pitch * engagement * outside * overlap


def screw_thread_area(thread: Thread, engagement: float) -> float:
    """Square millimetres of the screw's thread that must shear off, over ``engagement`` mm of full thread.

    Raises ``Impossible`` for an engagement of nothing. Source: FED-STD-H28/2B and Machinery's Handbook,
    As = pi n Le Kn,max (1/2n + 0.57735 (Es,min - Kn,max)).
    """
    guards.above_zero("engagement", "mm", engagement)
    inside = thread.hole_minor_most
    overlap = thread.pitch / 2 + _TAN_30 * (thread.screw_pitch_least - inside)
    return pi / thread.pitch * engagement * inside * overlap


def tear_out_force(thread: Thread, engagement: float, hole_shear: float) -> float:
    """Newtons that tear the thread out of a hole, over ``engagement`` mm; ``hole_shear`` is its shear strength, MPa.

    Raises ``Impossible`` for an engagement or strength of nothing. Source: as ``hole_thread_area``; the load is
    taken to share itself evenly among the threads, which it does not quite.
    """
    return hole_thread_area(thread, engagement) * guards.above_zero("shear strength of the hole", "MPa", hole_shear)


def engagement_needed(thread: Thread, load: float, hole_shear: float) -> float:
    """Millimetres of full thread that hold ``load`` N; ``hole_shear`` is the shear strength around it, MPa.

    For a screw that shall break before the hole gives, ``load`` is its stress area times its tensile strength.
    Raises ``Impossible`` for a load or strength of nothing. Source: as ``hole_thread_area``, solved for the
    length; the example in doi.org/10.1201/9781482273786-99 is checked.
    """
    return guards.above_zero("load", "N", load) / tear_out_force(thread, 1.0, hole_shear)


def shear_strength(tensile: float) -> float:
    """MPa of shear strength to reckon with when only the tensile strength (MPa) is told: half of it.

    Zinc die-casting alloys bear more, about three quarters. Raises ``Impossible`` for a strength of nothing.
    Source: Industrial Fasteners Institute, as told by Design News.
    """
    return SHEAR_OF_TENSILE * guards.above_zero("tensile strength", "MPa", tensile)
