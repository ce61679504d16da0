"""The unit to show where one is missing, by the key or the name under which the figure stands."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from site_builder.quantity.nouns import COMMON, plural

_BY_KEY: Mapping[str, str] = {
    "age": "y", "valid": "y", "refresh": "mo", "clock": "min", "wait": "h", "lasting": "min", "setup": "min",
    "count": "pieces", "readings": "mm", "check": "pieces", "when": "pieces",
    "each": "min", "load": "min", "lot": "h", "time": "min", "took": "h", "hours": "h/day", "learning": "h/week",
    "lessons": "h", "scrap": "%", "rework": "%", "share": "%", "confidence": "%", "agreement": "%",
    "composition": "parts by weight", "amount": "g per piece", "pot life": "min", "open time": "min", "recoat": "h",
}  # fmt: skip
_BY_WORD: Mapping[str, str] = {
    "temperature": "°C", "temp": "°C", "heat": "°C", "noise": "dB(A)", "power": "kW", "mass": "kg", "weight": "kg",
    "speed": "m/s", "time": "min", "life": "mo", "humidity": "%", "moisture": "%", "share": "%", "angle": "° angle",
    "pressure": "bar", "force": "N", "pull": "N", "tension": "N", "volume": "L", "current": "A", "voltage": "V",
    "density": "g/cm³", "vibration": "m/s²",
}  # fmt: skip
_COUNTED = {plural(noun) for noun in COMMON} | COMMON


def with_unit(text: str, path: Sequence[int | str]) -> str:
    """What is said of a figure without a unit, with the unit that belongs there in place of ``mm``."""
    unit = unit_hint(path)
    if unit == "°C":  # never guessed for anybody
        return re.sub(r"`([^`]*) mm`", r"`\1 °C` or `\1 °F`", text)
    text = text.replace(" mm`", f" {unit}`")
    return text.replace("`1 parts by", "`1 part by")


def unit_hint(path: Sequence[int | str]) -> str:
    """The unit for a figure at this path of keys and names, the outermost first; ``mm`` where nothing tells."""
    names = [str(step) for step in path if isinstance(step, str) and step not in ("is", "by", "said")]
    if names[-1:] == ["hours"] and "calendar" not in names:
        return "h/week"
    for name in reversed(names[-2:]):
        if name in _BY_KEY:
            return _BY_KEY[name]
        for word in re.findall(r"[a-z]+", name.lower()):
            if word in _BY_WORD:
                return _BY_WORD[word]
            if word in _COUNTED:
                return plural(word) if word in COMMON else word
    return "mm"
