"""Surface speeds that suit the work and the wheel, as suppliers and handbooks recommend them.

Recommendations, not ratings: what is marked on the wheel and the belt comes first. Publishers differ, and a
band holds what they say between them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval

Wheel = Literal["belt", "polishing wheel", "buff"]

FEET_A_MINUTE = 0.00508
"""m/s, exact."""


@dataclass(frozen=True, slots=True)
class SpeedBand:
    """The surface speeds (m/s) recommended for a kind of wheel on a kind of work, and who says so."""

    speeds: Interval
    source: str


def _feet(low: float, high: float, source: str) -> SpeedBand:
    return SpeedBand(Interval(low * FEET_A_MINUTE, high * FEET_A_MINUTE), source)


_SUPPLIER = "Abrasives tech tips, surface feet recommendations, Metal Finishing Systems"
_GUIDEBOOK = "Metal Finishing Guidebook, hand buffing wheel speeds (from memory)"
_TEXTBOOK = "Manufacturing textbook extract, polishing and buffing speeds"

BANDS: dict[tuple[Wheel, str], SpeedBand] = {
    ("belt", "brass"): _feet(7000, 8000, _SUPPLIER),
    ("belt", "aluminium"): _feet(6500, 8000, _SUPPLIER),
    ("belt", "stainless steel"): _feet(6500, 7000, _SUPPLIER),
    ("belt", "steel"): _feet(6500, 6500, _SUPPLIER),
    ("belt", "cast iron"): _feet(7000, 7000, _SUPPLIER),
    ("belt", "zinc"): SpeedBand(
        Interval(10, 25.4),
        "Zinc die casting guide, grinding: of the order of 600 m/min; 5000 ft/min and less as common practice",
    ),
    ("polishing wheel", "any"): _feet(6000, 7500, f"Surface finishing guidebook 2011; {_TEXTBOOK}"),
    ("buff", "zinc"): _feet(5000, 8000, _GUIDEBOOK),
    ("buff", "brass"): _feet(6000, 9000, _GUIDEBOOK),
    ("buff", "nickel"): _feet(6000, 9000, _GUIDEBOOK),
    ("buff", "aluminium"): _feet(6000, 9000, _GUIDEBOOK),
    ("buff", "steel"): _feet(7000, 9000, _GUIDEBOOK),
    ("buff", "any"): _feet(5000, 9000, f"{_GUIDEBOOK}; 7500 ft/min on average, Schaffner Manufacturing"),
}


def speed_band(wheel: Wheel, work: str = "any") -> SpeedBand:
    """The band for a kind of wheel on a metal; the band for any metal where none is published for this one.

    Raises ``Impossible`` where nothing is published for the wheel at all.
    Source: named in each band.
    """
    found = BANDS.get((wheel, work)) or BANDS.get((wheel, "any"))
    if found is None:
        known = ", ".join(sorted(f"{w} on {m}" for w, m in BANDS))
        raise Impossible("wheel and work", "", f"{wheel} on {work}", f"must be among the published ({known})")
    return found
