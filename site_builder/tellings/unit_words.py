"""Units as they are spoken, and how the notation writes them."""

from __future__ import annotations

from site_builder.quantity import NotationError, kind_of, parse_value
from site_builder.tellings.tokens import Token, listed

DEGREES = "degrees"
"""Degrees of which nobody has said the scale."""

DIFFERENCE = f"{DEGREES} difference"

_SPOKEN = {
    "nm": "nanometre nanometres nanometer nanometers",
    "µm": "micron microns micrometre micrometres micrometer micrometers µm um",
    "mm": "millimetre millimetres millimeter millimeters mm millis",
    "cm": "centimetre centimetres centimeter centimeters cm centis",
    "dm": "decimetre decimetres",
    "m": "metre metres meter meters m",
    "km": "kilometre kilometres kilometer kilometers km",
    "mil": "mil mils",
    "thou": "thou thous",
    "in": "inch inches in",
    "ft": "foot feet ft",
    "yd": "yard yards yd",
    "mi": "mile miles",
    "ms": "millisecond milliseconds",
    "s": "second seconds sec secs s",
    "min": "minute minutes min mins",
    "h": "hour hours hr hrs h",
    "d": "day days",
    "wk": "week weeks",
    "mo": "month months",
    "y": "year years",
    "mg": "milligram milligrams mg",
    "g": "gram grams gramme grammes g",
    "kg": "kilo kilos kilogram kilograms kg",
    "t": "tonne tonnes",
    "oz": "ounce ounces oz",
    "lb": "pound pounds lb lbs",
    "mL": "millilitre millilitres milliliter milliliters ml cc ccs",
    "cL": "centilitre centilitres",
    "dL": "decilitre decilitres deciliter deciliters",
    "L": "litre litres liter liters l",
    "gal": "gallon gallons",
    "N": "newton newtons",
    "bar": "bar bars",
    "mbar": "millibar millibars",
    "psi": "psi",
    "kPa": "kilopascal kilopascals kpa",
    "MPa": "megapascal megapascals mpa",
    "Pa": "pascal pascals",
    "W": "watt watts",
    "kW": "kilowatt kilowatts kw",
    "kWh": "kwh",
    "hp": "horsepower",
    "A": "amp amps ampere amperes",
    "mA": "milliamp milliamps",
    "V": "volt volts",
    "kV": "kilovolt kilovolts kv",
    "mV": "millivolt millivolts",
    "Ω": "ohm ohms",
    "Hz": "hertz hz",
    "kHz": "kilohertz khz",
    "rev/min": "rpm",
    "%": "percent % pct",
    "ppm": "ppm",
    "dB": "decibel decibels db",
    "lx": "lux",
    "°C": "celsius centigrade °c",
    "°F": "fahrenheit °f",
    DEGREES: "degree degrees ° deg",
    "part": "part parts",
    "rev": "rev revs revolution revolutions",
}
_LONG = {
    ("per", "cent"): "%",
    ("degrees", "celsius"): "°C",
    ("degrees", "centigrade"): "°C",
    ("degrees", "c"): "°C",
    ("degree", "celsius"): "°C",
    ("degree", "centigrade"): "°C",
    ("degree", "c"): "°C",
    ("degree", "fahrenheit"): "°F",
    ("degrees", "fahrenheit"): "°F",
    ("degrees", "f"): "°F",
    ("degree", "f"): "°F",
    ("deg", "c"): "°C",
    ("deg", "f"): "°F",
    ("°", "c"): "°C",
    ("°", "f"): "°F",
    ("fluid", "ounce"): "fl oz",
    ("fluid", "ounces"): "fl oz",
    ("foot", "pounds"): "lbf ft",
    ("foot", "pound"): "lbf ft",
    ("inch", "pounds"): "lbf in",
    ("newton", "metres"): "N m",
    ("newton", "meters"): "N m",
    ("pounds", "per", "square", "inch"): "psi",
    ("pounds", "to", "the", "square", "inch"): "psi",
    ("pounds", "a", "square", "inch"): "psi",
    ("working", "days"): "working day",
    ("working", "day"): "working day",
    ("parts", "by", "weight"): "part by weight",
    ("part", "by", "weight"): "part by weight",
    ("parts", "by", "volume"): "part by volume",
    ("part", "by", "volume"): "part by volume",
    ("degrees", "of", "angle"): "° angle",
    ("parts", "per", "million"): "ppm",
    ("imperial", "gallons"): "imp gal",
    ("square", "foot"): "ft²",
    ("square", "feet"): "ft²",
    ("square", "inch"): "in²",
    ("square", "inches"): "in²",
    ("square", "metre"): "m²",
    ("square", "metres"): "m²",
    ("square", "meter"): "m²",
    ("square", "meters"): "m²",
    ("square", "yard"): "yd²",
    ("square", "yards"): "yd²",
    ("square", "centimetre"): "cm²",
    ("square", "centimetres"): "cm²",
    ("square", "decimetre"): "dm²",
    ("square", "millimetres"): "mm²",
    ("cubic", "metre"): "m³",
    ("cubic", "metres"): "m³",
    ("cubic", "meter"): "m³",
    ("cubic", "meters"): "m³",
    ("cubic", "foot"): "ft³",
    ("cubic", "feet"): "ft³",
    ("cubic", "yard"): "yd³",
    ("cubic", "yards"): "yd³",
    ("cubic", "inch"): "in³",
    ("cubic", "inches"): "in³",
    ("cubic", "centimetre"): "cm³",
    ("cubic", "centimetres"): "cm³",
    ("amp", "hours"): "A h",
    ("kilowatt", "hours"): "kWh",
}
UNITS = {word: unit for unit, words in _SPOKEN.items() for word in words.split()}
_LONGEST = max(map(len, _LONG))
_BARE_LETTERS = frozenset(("m", "s", "h", "g", "l", "in", "min", "um", "bar", "bars", "deg"))
"""Read as a unit only behind a figure: ``12 m``, not `twelve in the box`."""
INCH_UNITS = frozenset(("in", "ft", "yd", "mil", "thou", "oz", "lb", "gal", "fl oz", "mi"))
TIME_UNITS = {"ms": 0, "s": 1, "min": 60, "h": 3600, "d": 86400, "wk": 604800, "mo": 2629800, "y": 31557600}
MONEY = listed(
    "dollar dollars euro euros cent cents pence quid shilling shillings penny pennies mark marks franc francs"
)


def unit_at(words: list[Token], i: int, figure: bool) -> tuple[str, int] | None:
    """The unit said from this token on, and the token after it. ``figure``: a figure in digits stands before."""
    for length in range(_LONGEST, 1, -1):
        found = _LONG.get(tuple(word.text for word in words[i : i + length]))
        if found is not None:
            return found, i + length
    word = words[i]
    unit = UNITS.get(word.text)
    if unit is None or (word.text in _BARE_LETTERS and not figure and word.text not in ("bar", "bars")):
        return None
    if word.text == "in" and words[i + 1].is_word:
        return None
    if word.text == "m" and not figure:
        return None
    return unit, i + 1


def family(unit: str) -> str:
    """The kind of a unit (length, time, …); of a noun that is counted, the noun; of degrees, temperature."""
    if unit == DEGREES:
        return "temperature"
    try:
        kind = kind_of(parse_value(f"1 {unit}"))
    except NotationError:
        return f"counted {unit}"
    return f"counted {unit}" if kind in (None, "count") else kind
