"""What each value of the grammar can be at all, and beyond what it is doubtful: by its key, its name or its kind.

Every key that holds a value or a count stands here; a test asks for it when a new key is added. Figures are in base
units (s, m, kg, °C, 1 for a share). The limits of people and rooms are wide on purpose: common practice.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

HOUR, DAY = 3600, 86400
YEAR = 31557600


class Range(NamedTuple):
    """From where to where a figure can be, None where there is no end; then the same for what is not doubtful."""

    words: str
    """What can be, as a sentence about it goes on: `lies between 0 % and 100 %`."""
    low: float | None = None
    high: float | None = None
    open_low: bool = False
    """Whether ``low`` itself cannot be: no time, no piece."""
    open_high: bool = False
    whole: bool = False
    """Whether it is counted in whole ones."""
    beside: bool = False
    """Whether only the whole of it must be more than ``low``: `0 +0.2/-0.1 mm` is a place, and can be."""
    least_only: bool = False
    """Whether only a least can be asked for, as with an age."""
    odd_low: float | None = None
    odd_high: float | None = None


ANYTHING = Range("")
_SOME = Range("is more than nothing", 0, open_low=True)
_NONE_OR_SOME = Range("is 0 or more", 0)
_COUNTED = Range("is a whole number, 1 or more", 1, whole=True)
_COUNTED_OR_NONE = Range("is a whole number, 0 or more", 0, whole=True)
_SHARE = Range("lies between 0 % and 100 %", 0, 1)
_SOME_SHARE = Range("is more than 0 % and at most 100 %", 0, 1, open_low=True)
_NEVER_ALL = Range("is 0 % or more and less than 100 %", 0, 1, open_high=True)
_SURE = Range("is more than 0 % and less than 100 %", 0, 1, open_low=True, open_high=True, odd_low=0.5)
_WORKED = Range("is more than nothing, and no more than the day or the week has hours", 0, 1, open_low=True)
_AGE = Range("is a least age between 10 and 100 years", 10 * YEAR, 100 * YEAR, least_only=True, odd_high=40 * YEAR)
_NEVER_COLDER = Range("is no colder than -273.15 °C", -273.15, odd_high=3500)

OF_KEY: Mapping[tuple[str, str], Range] = {
    ("ToolUse", "amount"): _SOME,
    ("MaterialUse", "amount"): _SOME,
    ("Keep", "amount"): _SOME,
    ("Time", "setup"): _NONE_OR_SOME,
    ("Time", "each"): _SOME,
    ("Time", "load"): _SOME,
    ("Time", "lot"): _SOME,
    ("Yield", "scrap"): _SHARE,  # the first pieces of a cold mould are all lost
    ("Yield", "rework"): _SHARE,
    ("Yield", "returns"): _SHARE,
    ("By", "lasting"): _SOME,
    ("Paper", "valid"): Range("is more than nothing", 0, open_low=True, odd_low=DAY, odd_high=100 * YEAR),
    ("Check", "share"): _SOME_SHARE,
    ("Proof", "share"): _SOME_SHARE,
    ("Proof", "confidence"): _SURE,
    ("Proof", "pieces"): _COUNTED,
    ("Calendar", "hours"): _WORKED,
    ("Person", "hours"): _WORKED,
    ("Person", "learning"): _WORKED,
    ("Skill", "lessons"): Range("is more than nothing", 0, open_low=True, odd_high=10_000 * HOUR),
    ("Material", "composition"): _SHARE,
    ("Hands", "count"): Range("is a whole number, 1 or more", 1, whole=True, odd_high=30),
    ("Part", "of"): _COUNTED,
    ("Remedy", "times"): _COUNTED,
    ("Trouble", "times"): _COUNTED,
    ("Loop", "times"): _COUNTED,
    ("Shop", "holders"): _COUNTED,
    ("Order", "pieces"): _COUNTED,
    ("OrderShare", "pieces"): _COUNTED,
    ("Practice", "pieces"): _COUNTED_OR_NONE._replace(odd_low=1),
    ("Practice", "scrap"): _COUNTED_OR_NONE,
    ("Practice", "rework"): _COUNTED_OR_NONE,
    ("Practice", "took"): _SOME,
    ("Measurement", "pieces"): _COUNTED_OR_NONE,
    ("Order", "made"): _COUNTED_OR_NONE,
    ("Part", "stock"): _COUNTED_OR_NONE,
    ("Part", "lead time"): Range("is 0 or more", 0, odd_high=2 * YEAR),
    ("Material", "stock"): _NONE_OR_SOME,
    ("Material", "lead time"): Range("is 0 or more", 0, odd_high=2 * YEAR),
    ("Tool", "count"): _COUNTED,
    ("Person", "other"): _WORKED,
    ("Planning", "noise"): Range("lies between 0 dB and 194 dB", 0, 194, odd_high=87),
    ("Planning", "vibration"): Range("is more than nothing", 0, open_low=True, odd_high=5),
    ("Planning", "lifting"): Range("is more than nothing", 0, open_low=True, odd_high=10_000),
    ("Season", "pieces"): _COUNTED,
    ("Season", "chance"): _SHARE,
    ("NarrowPlace", "brings"): _NONE_OR_SOME,
    ("PlannedStint", "pieces"): _COUNTED_OR_NONE,
    ("PlannedStint", "time"): Range("is more than nothing, and no more than a day", 0, 86_400, open_low=True),
    ("Measurement", "readings"): ANYTHING,  # what a gauge said stands as it was said
    ("Limit", "given"): ANYTHING,  # by its name, as below
}
"""A plain value or a count, by the entry it stands in and its key."""

OF_LIMIT: Mapping[str, Range] = {
    "load": _SOME,
    "wait": _SOME,
    "windows": _SOME,
    "clock": _SOME,
    "count": _SOME,
    "age": _AGE,
    "refresh": Range("is more than nothing", 0, open_low=True, odd_low=DAY, odd_high=20 * YEAR),
    "agreement": _SOME_SHARE,
    # By their names, as below.
    "conditions": ANYTHING, "settings": ANYTHING, "limits": ANYTHING, "state": ANYTHING, "sizes": ANYTHING,
    "properties": ANYTHING,
    # What was and what is: a result of a change may be anything.
    "old": ANYTHING, "new": ANYTHING,
}  # fmt: skip
"""A limit, by the key it stands under."""

_MELTS = Range("lies between -40 °C and 3500 °C, where metals melt", -40, 3500)
OF_NAME: Mapping[str, Range] = {
    "room temperature": Range(
        "lies between -50 °C and 60 °C, which people can stand", -50, 60, odd_low=-15, odd_high=45
    ),
    "humidity": _SHARE,
    "density": Range("is more than nothing, and at most the 22.6 g/cm³ of osmium", 0, 22600, open_low=True),
    "solidus": _MELTS,
    "liquidus": _MELTS,
    "melting point": _MELTS,
    "flash point": Range("lies between -120 °C and 1000 °C", -120, 1000, odd_high=400),
    "shrinkage": Range(
        "is a share, and less than all there is", -1, 1, open_low=True, open_high=True, odd_low=-0.05, odd_high=0.3
    ),
    "melt loss": _NEVER_ALL,
    "loss": _NEVER_ALL,
    "returns in the pot": _SHARE,
    "reduction between anneals": _SURE._replace(odd_low=None),
    "first reduction": _SURE._replace(odd_low=None),
    "later reduction": _SURE._replace(odd_low=None),
    "current efficiency": _SOME_SHARE,
    "volume solids": _SOME_SHARE,
    "noise": Range("lies between 0 dB and 194 dB", 0, 194, odd_high=150),
    "NRR": Range("lies between 0 dB and 60 dB", 0, 60, odd_high=45),
    "SNR": Range("lies between 0 dB and 60 dB", 0, 60, odd_high=45),
    "attenuation": Range("lies between 0 dB and 60 dB", 0, 60, odd_high=45),
    "vibration": Range("is 0 or more", 0, odd_high=100),
    "lift": Range("is more than nothing", 0, open_low=True, odd_high=100),
    "reach": Range("is more than nothing", 0, open_low=True, odd_high=1.5),
    "exposure limit": _SOME,
    "power": Range("is more than nothing", 0, open_low=True, odd_high=10_000_000),
    "wheel size": Range("is more than nothing", 0, open_low=True, odd_high=5),
    "least size": _SOME,
    "drive wheel": _SOME,
    "rated speed": _SOME,
    "spindle speed": _SOME,
    "motor speed": _SOME,
    "surface speed": Range("is more than nothing", 0, open_low=True, odd_high=300),
    "belt speed": Range("is more than nothing", 0, open_low=True, odd_high=100),
    "current density": _SOME,
    "torque": _SOME,
    "capacity": _SOME,
    "resolution": _SOME,
    "recoat": Range("is more than nothing", 0, open_low=True, odd_high=YEAR),
    "pot life": Range("is more than nothing", 0, open_low=True, odd_high=YEAR / 4),
    "open time": Range("is more than nothing", 0, open_low=True, odd_high=YEAR / 4),
    "shelf life": Range("is more than nothing", 0, open_low=True, odd_low=HOUR, odd_high=50 * YEAR),
    "shelf life after opening": Range("is more than nothing", 0, open_low=True, odd_high=50 * YEAR),
}
"""A value of this name, wherever it stands."""

OF_WORD: Mapping[tuple[str, str], Range] = {
    ("humidity", "ratio"): _SHARE,
    ("moisture", "ratio"): Range("is 0 % or more", 0),
    ("efficiency", "ratio"): _SHARE,
    ("solids", "ratio"): _SHARE,
}
"""A value whose name ends with this word and which is of this kind."""

OF_KIND: Mapping[str, Range] = {
    "temperature": _NEVER_COLDER,
    "time": _NONE_OR_SOME,
    "working time": _NONE_OR_SOME,
}
"""Any other value, by its kind."""

OF_THING: Mapping[str, Range] = {
    "mass": _SOME, "area": _SOME, "volume": _SOME, "count": _NONE_OR_SOME,
    "length": Range("is more than nothing", 0, open_low=True, beside=True),
    "density": _SOME, "power": _SOME, "rotation speed": _SOME, "speed": _SOME,
}  # fmt: skip
"""Any other size of a part or property of a thing, by its kind; a setting may well be less than nothing."""
