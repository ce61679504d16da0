"""Of which kind a value must be, by the name or the key under which it stands.

Kinds are those of ``quantity.units``. The names stand in ``known_names``.
"""

from __future__ import annotations

from collections.abc import Mapping

from site_builder.checks.known_names import TIME, TOPICS

_RATIO = ("ratio",)
_COUNT = ("count",)

OF_NAME: Mapping[str, tuple[str, ...]] = {
    known.name: known.kinds for names in TOPICS.values() for known in names if known.kinds
}
"""What a value of this name must be, wherever it stands."""

OF_KEY: Mapping[tuple[str, str], tuple[str, ...]] = {
    ("Time", "setup"): TIME,
    ("Time", "each"): (*TIME, "time per count"),
    ("Time", "load"): (*TIME, "time per count"),
    ("Time", "lot"): (*TIME, "time per count"),
    ("Yield", "scrap"): _RATIO,
    ("Yield", "rework"): _RATIO,
    ("By", "lasting"): TIME,
    ("Paper", "valid"): TIME,
    ("Check", "share"): _RATIO,
    ("Inspection", "share"): _RATIO,
    ("Proof", "share"): _RATIO,
    ("Proof", "confidence"): _RATIO,
    ("Calendar", "hours"): ("time per time",),
    ("Person", "hours"): ("time per time",),
    ("Person", "learning"): ("time per time",),
    ("Skill", "lessons"): TIME,
    ("Practice", "took"): TIME,
    ("Hands", "count"): _COUNT,
    ("Part", "of"): _COUNT,
    ("Remedy", "times"): _COUNT,
    ("Trouble", "times"): _COUNT,
    ("Loop", "times"): _COUNT,
    ("Shop", "holders"): _COUNT,
    ("Order", "pieces"): _COUNT,
    ("OrderShare", "pieces"): _COUNT,
    ("Proof", "pieces"): _COUNT,
    ("Practice", "pieces"): _COUNT,
    ("Practice", "scrap"): _COUNT,
    ("Practice", "rework"): _COUNT,
    ("Measurement", "pieces"): _COUNT,
}
"""What a plain value must be, by the entry it stands in and its key."""

OF_LIMIT: Mapping[str, tuple[str, ...]] = {
    "load": ("count", "mass", "length", "area", "volume"),
    "count": ("count", "length", "mass", "area", "volume"),
    "wait": TIME,
    "windows": TIME,
    "clock": TIME,
    "age": TIME,
    "refresh": TIME,
    "agreement": _RATIO,
}
"""What a limit must be, by the key it stands under."""

IN_WORDS: Mapping[str, str] = {
    "time": "a time, as `5 min`",
    "temperature": "a temperature, as `480 °C`",
    "length": "a length, as `3 mm`",
    "ratio": "a share, as `5 %`",
    "density": "a mass per volume, as `6.1 g/cm³`",
    "coverage": "an area per volume or mass, as `8 m²/L`",
    "speed": "a speed, as `18 m/s`",
    "rotation speed": "a speed, as `1400 rev/min`",
    "sound level": "a level in decibels, as `88 dB(A)`",
    "acceleration": "an acceleration, as `2.5 m/s²`",
    "pressure": "a strength, as `310 MPa`",
    "volume": "a volume, as `180 cm³`",
    "area": "an area, as `180 cm²`",
    "current density": "a current on an area, as `3 A/dm²`",
    "torque": "a torque, as `1.8 N·m`",
    "mass": "a mass, as `2.5 kg`",
    "power": "a power, as `1.5 kW`",
    "energy per mass": "a heat per mass, as `110 kJ/kg`",
    "energy per mass per temperature difference": "a heat per mass and degree, as `440 J/kg per K`",
    "count": "a count, as `12`",
    "time per time": "hours a day or a week, as `7 h/day`",
}
"""The first of the kinds wanted, as a message tells it."""


def in_words(kinds: tuple[str, ...]) -> str:
    """What is wanted, with an example of how it is written."""
    return IN_WORDS[kinds[0]]
