"""Of which kind a value must be, by the name or the key under which it stands.

Kinds are those of ``quantity.units``. The names are the known properties of the format.
"""

from __future__ import annotations

from collections.abc import Mapping

TIME = ("time", "working time")
_TEMPERATURE = ("temperature",)
_LENGTH = ("length",)
_RATIO = ("ratio",)
_LEVEL = ("sound level",)
_PRESSURE = ("pressure",)
_AREA = ("area",)
_TURNS = ("rotation speed",)

OF_NAME: Mapping[str, tuple[str, ...]] = {
    "density": ("density",),
    "solidus": _TEMPERATURE,
    "liquidus": _TEMPERATURE,
    "casting temperature": _TEMPERATURE,
    "pouring temperature": _TEMPERATURE,
    "bath temperature": _TEMPERATURE,
    "heat of the mould": _TEMPERATURE,
    "shrinkage": _RATIO,
    "melt loss": _RATIO,
    "returns in the pot": _RATIO,
    "latent heat": ("energy per mass",),
    "specific heat": ("energy per mass per temperature difference",),
    "flash point": _TEMPERATURE,
    "room temperature": _TEMPERATURE,
    "volume solids": _RATIO,
    "humidity": ("ratio", "density"),
    "wet film": _LENGTH,
    "dry film": _LENGTH,
    "spreading rate": ("coverage", "area per mass", "area per volume"),
    "pot life": TIME,
    "open time": TIME,
    "recoat": TIME,
    "shelf life": TIME,
    "shelf life after opening": TIME,
    "rated speed": ("speed", "rotation speed", "frequency"),
    "belt speed": ("speed",),
    "spindle speed": _TURNS,
    "motor speed": _TURNS,
    "wheel size": _LENGTH,
    "sheet length": _LENGTH,
    "plated area": _AREA,
    "painted area": _AREA,
    "current density": ("current density",),
    "time in the bath": TIME,
    "current efficiency": _RATIO,
    "sheet width": _LENGTH,
    "trim": _LENGTH,
    "gap between discs": _LENGTH,
    "reduction between anneals": _RATIO,
    "first reduction": _RATIO,
    "later reduction": _RATIO,
    "least size": _LENGTH,
    "drive wheel": _LENGTH,
    "noise": _LEVEL,
    "vibration": ("acceleration",),
    "running time": TIME,
    "torque": ("torque",),
    "thread engagement": _LENGTH,
    "tensile strength": _PRESSURE,
    "shear strength": _PRESSURE,
    "NRR": _LEVEL,
    "SNR": _LEVEL,
    "attenuation": _LEVEL,
    "exposure limit": ("density", "ratio"),
    "measured in the air": ("density", "ratio"),
    "lift": ("mass",),
    "reach": _LENGTH,
    "time between lifts": TIME,
    "mass": ("mass", "mass per count"),
    "power": ("power",),
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
    ("Calendar", "hours"): ("time per time", "time"),
    ("Person", "hours"): ("time per time", "time"),
    ("Person", "learning"): ("time per time", "time"),
    ("Skill", "lessons"): TIME,
    ("Practice", "took"): TIME,
}
"""What a plain value must be, by the entry it stands in and its key."""

OF_LIMIT: Mapping[str, tuple[str, ...]] = {
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
    "area": "an area, as `180 cm²`",
    "current density": "a current on an area, as `3 A/dm²`",
    "torque": "a torque, as `1.8 N·m`",
    "mass": "a mass, as `2.5 kg`",
    "power": "a power, as `1.5 kW`",
    "energy per mass": "a heat per mass, as `110 kJ/kg`",
    "energy per mass per temperature difference": "a heat per mass and degree, as `440 J/kg per K`",
    "time per time": "hours a day or a week, as `7 h/day`",
}
"""The first of the kinds wanted, as a message tells it."""


def in_words(kinds: tuple[str, ...]) -> str:
    """What is wanted, with an example of how it is written."""
    return IN_WORDS[kinds[0]]
