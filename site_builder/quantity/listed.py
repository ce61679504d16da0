"""The table of units: a unit is added in one line here, and is then read, converted, shown and held against Pint.

Factors of inch units are exact by definition (international yard and pound, 1959; US gallon of 231 cubic inches). A
month is a twelfth of a year of 365.25 days: good enough for a span, not for a date.
"""

from __future__ import annotations

from typing import Literal, NamedTuple

System = Literal["metric", "inch", ""]


class Listed(NamedTuple):
    """A unit: how it is written, of what kind it is, and what it is worth."""

    symbol: str
    kind: str
    factor: str
    """Exact, to the base unit of its kind: m, kg, s, A, V, °C, K (of differences), ° (of angles), 1 (of ratios)."""
    system: System = ""
    """Empty where both systems use it."""
    name: str = ""
    """As the reference library calls it; none where nothing outside knows it."""
    other: str = ""
    """The unit of the other system that people use in its place (common practice)."""
    also: tuple[str, ...] = ()
    """Other spellings that are read as it."""
    spoken: str = ""
    """Words that are no notation, but are told with the unit that was meant."""
    people: tuple[str, str] = ("", "")
    """What people read in its place: of one, of several."""
    written: str = ""
    """How it is written where that is not the symbol."""
    offset: str = "0"
    """What is added after the factor, in the base unit."""
    scale: bool = False
    """A scale for itself: figures on two of them cannot be compared."""
    loose: bool = False
    """Whether a line may break before it."""


UNITS: tuple[Listed, ...] = (
    Listed("nm", "length", "1/1000000000", system="metric", name="nanometre", other="µin"),
    Listed("µm", "length", "1/1000000", system="metric", name="micrometre", other="mil", also=("um",),
           spoken="micron microns micrometer micrometre"),
    Listed("mm", "length", "1/1000", system="metric", name="millimetre", other="in",
           spoken="millimeter millimeters millimetre millimetres Mm MM"),
    Listed("cm", "length", "1/100", system="metric", name="centimetre", other="in",
           spoken="centimeter centimeters centimetre centimetres"),
    Listed("dm", "length", "1/10", system="metric", name="decimetre", other="in"),
    Listed("m", "length", "1", system="metric", name="metre", other="ft", spoken="meter meters metre metres mtr"),
    Listed("km", "length", "1000", system="metric", name="kilometre", other="mi"),
    Listed("µin", "length", "0.0000000254", system="inch", name="microinch", other="µm", also=("uin",)),
    Listed("mil", "length", "0.0000254", system="inch", name="thou", other="µm", also=("mils",)),
    Listed("thou", "length", "0.0000254", system="inch", name="thou", other="µm"),
    Listed("in", "length", "0.0254", system="inch", name="inch", other="mm", spoken="inch inches"),
    Listed("ft", "length", "0.3048", system="inch", name="foot", other="m", spoken="feet foot"),
    Listed("yd", "length", "0.9144", system="inch", name="yard", other="m", spoken="yard yards"),
    Listed("mi", "length", "1609.344", system="inch", name="mile", other="km", spoken="mile",
           people=("mile", "miles")),
    Listed("µs", "time", "1/1000000", name="microsecond", also=("us",)),
    Listed("ms", "time", "1/1000", name="millisecond"),
    Listed("s", "time", "1", name="second", also=("second", "seconds",), spoken="sec secs"),
    Listed("min", "time", "60", name="minute", also=("minute", "minutes",), spoken="mins Min"),
    Listed("h", "time", "3600", name="hour", also=("hour", "hours",), spoken="hr hrs"),
    Listed("d", "time", "86400", name="day", also=("day", "days",), people=("day", "days")),
    Listed("wk", "time", "604800", name="week", also=("week", "weeks",), spoken="wks", people=("week", "weeks")),
    Listed("mo", "time", "2629800", name="month", also=("month", "months",), spoken="mos", people=("month", "months")),
    Listed("y", "time", "31557600", name="year", also=("year", "years",), spoken="yr yrs", people=("year", "years")),
    Listed("µg", "mass", "1/1000000000", system="metric", name="microgram", also=("ug",)),
    Listed("mg", "mass", "1/1000000", system="metric", name="milligram"),
    Listed("g", "mass", "1/1000", system="metric", name="gram", other="oz", spoken="gram grams gramme grammes gr"),
    Listed("kg", "mass", "1", system="metric", name="kilogram", other="lb",
           spoken="kilogram kilograms kilo kilos kgs Kg KG"),
    Listed("t", "mass", "1000", system="metric", name="metric_ton", other="lb", spoken="ton tonne tonnes"),
    Listed("oz", "mass", "0.028349523125", system="inch", name="ounce", other="g", spoken="ounce ounces"),
    Listed("lb", "mass", "0.45359237", system="inch", name="pound", other="kg", also=("lbs",), spoken="pound pounds"),
    Listed("µL", "volume", "1/1000000000", system="metric", name="microlitre", also=("µl", "uL", "ul",)),
    Listed("mL", "volume", "1/1000000", system="metric", name="millilitre", other="fl oz", also=("ml",)),
    Listed("cL", "volume", "1/100000", system="metric", name="centilitre", other="fl oz", also=("cl",)),
    Listed("dL", "volume", "1/10000", system="metric", name="decilitre", other="fl oz", also=("dl",)),
    Listed("L", "volume", "1/1000", system="metric", name="litre", other="US gal", also=("l",),
           spoken="liter liters litre litres ltr"),
    Listed("fl oz", "volume", "0.0000295735295625", system="inch", name="fluid_ounce", other="mL",
           also=("US fl oz",), people=("US fl oz", "US fl oz")),
    Listed("gal", "volume", "0.003785411784", system="inch", name="gallon", other="L", also=("US gal",),
           spoken="gallon gallons", people=("US gal", "US gal"), written="US gal"),
    Listed("imp gal", "volume", "0.00454609", system="inch", name="imperial_gallon", other="L"),
    Listed("N", "force", "1", system="metric", name="newton", other="lbf", spoken="newton newtons"),
    Listed("kN", "force", "1000", system="metric", name="kilonewton", other="lbf"),
    Listed("lbf", "force", "4.4482216152605", system="inch", name="pound_force", other="N"),
    Listed("N m", "torque", "1", system="metric", name="newton metre", other="lbf ft", also=("Nm", "N·m",)),
    Listed("N cm", "torque", "1/100", system="metric", name="newton centimetre", other="lbf in", also=("Ncm", "N·cm",)),
    Listed("lbf ft", "torque", "1.3558179483314004", system="inch", name="pound_force foot", other="N m",
           also=("lbf·ft", "lb ft",)),
    Listed("lbf in", "torque", "0.1129848290276167", system="inch", name="pound_force inch", other="N m",
           also=("lbf·in", "lb in",)),
    Listed("Pa", "pressure", "1", system="metric", name="pascal", other="psi"),
    Listed("hPa", "pressure", "100", system="metric", name="hectopascal", other="psi"),
    Listed("kPa", "pressure", "1000", system="metric", name="kilopascal", other="psi"),
    Listed("MPa", "pressure", "1000000", system="metric", name="megapascal", other="psi"),
    Listed("GPa", "pressure", "1000000000", system="metric", name="gigapascal", other="psi"),
    Listed("mbar", "pressure", "100", system="metric", name="millibar", other="psi"),
    Listed("bar", "pressure", "100000", system="metric", name="bar", other="psi"),
    Listed("psi", "pressure", "8896443230521/1290320000", system="inch", name="psi", other="bar"),
    Listed("J", "energy", "1", name="joule"),
    Listed("kJ", "energy", "1000", name="kilojoule"),
    Listed("Wh", "energy", "3600", name="watt hour"),
    Listed("kWh", "energy", "3600000", name="kilowatt hour"),
    Listed("W", "power", "1", system="metric", name="watt", spoken="watt watts"),
    Listed("kW", "power", "1000", system="metric", name="kilowatt", other="hp"),
    Listed("hp", "power", "745.69987158227022", system="inch", name="horsepower", other="kW"),
    Listed("mA", "current", "1/1000", name="milliampere"),
    Listed("A", "current", "1", name="ampere", spoken="amp amps"),
    Listed("A h", "charge", "3600", name="ampere hour", also=("Ah", "A·h",)),
    Listed("mV", "voltage", "1/1000", name="millivolt"),
    Listed("V", "voltage", "1", name="volt", spoken="volt volts"),
    Listed("kV", "voltage", "1000", name="kilovolt"),
    Listed("Ω", "resistance", "1", name="ohm", also=("ohm", "ohms", "Ω",)),
    Listed("kΩ", "resistance", "1000", name="kiloohm", also=("kΩ",)),
    Listed("µS", "conductance", "1/1000000", name="microsiemens", also=("uS",)),
    Listed("mS", "conductance", "1/1000", name="millisiemens"),
    Listed("S", "conductance", "1", name="siemens"),
    Listed("Hz", "frequency", "1", name="hertz"),
    Listed("kHz", "frequency", "1000", name="kilohertz"),
    Listed("rev", "revolution", "1", name="revolution", loose=True),
    Listed("lx", "illuminance", "1", name="lux"),
    Listed("%", "ratio", "1/100", name="percent", spoken="percent pct"),
    Listed("ppm", "ratio", "1/1000000", name="ppm"),
    Listed("° angle", "angle", "1", name="degree"),
    Listed("K", "temperature difference", "1", system="metric", name="delta_degC", other="°F difference",
           spoken="kelvin Kelvin"),
    Listed("°C difference", "temperature difference", "1", system="metric", name="delta_degC", other="°F difference"),
    Listed("°F difference", "temperature difference", "5/9", system="inch", name="delta_degF", other="°C difference"),
    Listed("°C", "temperature", "1", system="metric", name="degC", other="°F"),
    Listed("°F", "temperature", "5/9", system="inch", name="degF", other="°C", offset="-160/9"),
    Listed("pH", "acidity", "1"),
    Listed("working day", "working time", "1", people=("working day", "working days"), loose=True),
    Listed("part", "part", "1", people=("part", "parts"), loose=True),
    Listed("part by weight", "part by weight", "1", people=("part by weight", "parts by weight"), loose=True),
    Listed("part by volume", "part by volume", "1", people=("part by volume", "parts by volume"), loose=True),
    Listed("HV", "hardness", "1", scale=True, spoken="Hv"),
    Listed("HB", "hardness", "1", scale=True),
    Listed("HRC", "hardness", "1", scale=True, spoken="HRc"),
    Listed("HRB", "hardness", "1", scale=True),
    Listed("dB", "sound level", "1", scale=True),
    Listed("dB(A)", "sound level", "1", scale=True, spoken="dBA dba db"),
    Listed("dB(C)", "sound level", "1", scale=True),
)

OTHER_OF_MADE = {
    "mm²": "in²", "cm²": "in²", "dm²": "in²", "m²": "ft²", "mm³": "in³", "cm³": "in³", "dm³": "in³", "m³": "ft³",
    "m/s": "ft/min", "m/min": "ft/min", "km/h": "mi/h", "kg/m³": "lb/ft³", "g/cm³": "lb/in³", "kg/dm³": "lb/in³",
    "g/mL": "lb/in³", "g/L": "oz/gal", "kg/L": "lb/gal", "A/dm²": "A/ft²", "A/cm²": "A/in²", "A/m²": "A/ft²",
    "m²/L": "ft²/gal", "g/m²": "oz/ft²", "in²": "mm²", "ft²": "m²", "yd²": "m²", "in³": "cm³", "ft³": "m³",
    "yd³": "m³", "ft/min": "m/s", "in/min": "mm/min", "ft/s": "m/s", "mi/h": "km/h", "lb/ft³": "kg/m³",
    "lb/in³": "g/cm³", "oz/gal": "g/L", "lb/gal": "kg/L", "A/ft²": "A/dm²", "A/in²": "A/dm²", "ft²/gal": "m²/L",
    "oz/ft²": "g/m²",
}  # fmt: skip
"""The same for units that are made of several."""

SPOKEN_FOR_MADE = {
    "cm³": "cc ccm", "rev/min": "rpm RPM", "ft/min": "sfpm fpm sfm", "mi/h": "mph", "km/h": "kph kmh",
    "mA/cm²": "mA/cm2", "m²": "qm sqm", "ft²": "sqft", "pieces": "pcs", "piece": "pc", "m/s": "M/s",
}  # fmt: skip
"""Words for units that are made of several, and for what is counted."""
