"""The listed units: what they are called, what kind they are, and how they convert.

Each unit knows its exact factor to the base unit of its kind. Base units are m, kg, s, A, V, °C
(temperatures), K (temperature differences), ° (angles), 1 (ratios), and each scale or counted noun for
itself. Factors of inch units are exact by definition (international yard and pound, 1959; US gallon of 231
cubic inches). A month is a twelfth of a year of 365.25 days: good enough for a span, not for a date.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache
from typing import Literal

from site_builder.quantity.nouns import COMMON, plural

System = Literal["metric", "inch", ""]
Dimensions = tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of measure or a counted noun.

    ``factor`` and ``offset`` lead to the base unit: base = written × factor + offset. ``dimensions`` decide
    whether two units can be compared; ``one`` and ``many`` are the words shown to people.
    """

    symbol: str
    kind: str
    factor: Fraction
    dimensions: Dimensions
    system: System = ""
    offset: Fraction = Fraction(0)
    one: str = ""
    many: str = ""

    def __repr__(self) -> str:
        return f"Unit({self.symbol!r})"

    def named(self, single: bool) -> str:
        """The unit as written in the notation; nouns and parts have a plural."""
        if not self.spelled:
            return _WRITTEN.get(self.symbol, self.symbol)
        return self.one if single else self.many

    @property
    def spelled(self) -> bool:
        """True of units that are words with a plural of their own."""
        return self.kind in _SPELLED and self.symbol != ""

    @property
    def counted(self) -> bool:
        """True of nouns one counts in, and of the bare count."""
        return self.kind == "count"


def same_dimensions(a: Unit, b: Unit) -> bool:
    """Whether figures in the two units may be compared. A bare count fits every counted noun."""
    if a.kind != b.kind:
        return False
    if a.counted and (a is COUNT or b is COUNT):
        return True
    return a.dimensions == b.dimensions


COUNT = Unit("", "count", Fraction(1), ())
"""The unit of a bare number where the key is a count."""

ONE = Unit("", "ratio", Fraction(1), ())
"""The unit of a bare ratio, over which ``1 / feed`` is reckoned."""

# symbol, kind, factor to base, system, and other spellings that are read as it
_LISTED: tuple[tuple[str, str, str, System, str], ...] = (
    ("nm", "length", "1/1000000000", "metric", ""),
    ("µm", "length", "1/1000000", "metric", "um"),
    ("mm", "length", "1/1000", "metric", ""),
    ("cm", "length", "1/100", "metric", ""),
    ("dm", "length", "1/10", "metric", ""),
    ("m", "length", "1", "metric", ""),
    ("km", "length", "1000", "metric", ""),
    ("µin", "length", "0.0000000254", "inch", "uin"),
    ("mil", "length", "0.0000254", "inch", "mils"),
    ("thou", "length", "0.0000254", "inch", ""),
    ("in", "length", "0.0254", "inch", ""),
    ("ft", "length", "0.3048", "inch", ""),
    ("yd", "length", "0.9144", "inch", ""),
    ("mi", "length", "1609.344", "inch", ""),
    ("µs", "time", "1/1000000", "", "us"),
    ("ms", "time", "1/1000", "", ""),
    ("s", "time", "1", "", "second seconds"),
    ("min", "time", "60", "", "minute minutes"),
    ("h", "time", "3600", "", "hour hours"),
    ("d", "time", "86400", "", "day days"),
    ("wk", "time", "604800", "", "week weeks"),
    ("mo", "time", "2629800", "", "month months"),
    ("y", "time", "31557600", "", "year years"),
    ("µg", "mass", "1/1000000000", "metric", "ug"),
    ("mg", "mass", "1/1000000", "metric", ""),
    ("g", "mass", "1/1000", "metric", ""),
    ("kg", "mass", "1", "metric", ""),
    ("t", "mass", "1000", "metric", ""),
    ("oz", "mass", "0.028349523125", "inch", ""),
    ("lb", "mass", "0.45359237", "inch", "lbs"),
    ("µL", "volume", "1/1000000000", "metric", "µl uL ul"),
    ("mL", "volume", "1/1000000", "metric", "ml"),
    ("cL", "volume", "1/100000", "metric", "cl"),
    ("dL", "volume", "1/10000", "metric", "dl"),
    ("L", "volume", "1/1000", "metric", "l"),
    ("fl oz", "volume", "0.0000295735295625", "inch", ""),
    ("gal", "volume", "0.003785411784", "inch", ""),
    ("imp gal", "volume", "0.00454609", "inch", ""),
    ("N", "force", "1", "metric", ""),
    ("kN", "force", "1000", "metric", ""),
    ("lbf", "force", "4.4482216152605", "inch", ""),
    ("N m", "torque", "1", "metric", "Nm N·m"),
    ("N cm", "torque", "1/100", "metric", "Ncm N·cm"),
    ("lbf ft", "torque", "1.3558179483314004", "inch", "lbf·ft"),
    ("lbf in", "torque", "0.1129848290276167", "inch", "lbf·in"),
    ("Pa", "pressure", "1", "metric", ""),
    ("hPa", "pressure", "100", "metric", ""),
    ("kPa", "pressure", "1000", "metric", ""),
    ("MPa", "pressure", "1000000", "metric", ""),
    ("GPa", "pressure", "1000000000", "metric", ""),
    ("mbar", "pressure", "100", "metric", ""),
    ("bar", "pressure", "100000", "metric", ""),
    ("psi", "pressure", "8896443230521/1290320000", "inch", ""),
    ("J", "energy", "1", "", ""),
    ("kJ", "energy", "1000", "", ""),
    ("Wh", "energy", "3600", "", ""),
    ("kWh", "energy", "3600000", "", ""),
    ("W", "power", "1", "metric", ""),
    ("kW", "power", "1000", "metric", ""),
    ("hp", "power", "745.69987158227022", "inch", ""),
    ("mA", "current", "1/1000", "", ""),
    ("A", "current", "1", "", ""),
    ("A h", "charge", "3600", "", "Ah A·h"),
    ("mV", "voltage", "1/1000", "", ""),
    ("V", "voltage", "1", "", ""),
    ("kV", "voltage", "1000", "", ""),
    ("Ω", "resistance", "1", "", "ohm ohms Ω"),
    ("kΩ", "resistance", "1000", "", "kΩ"),
    ("µS", "conductance", "1/1000000", "", "uS"),
    ("mS", "conductance", "1/1000", "", ""),
    ("S", "conductance", "1", "", ""),
    ("Hz", "frequency", "1", "", ""),
    ("kHz", "frequency", "1000", "", ""),
    ("rev", "revolution", "1", "", ""),
    ("lx", "illuminance", "1", "", ""),
    ("%", "ratio", "1/100", "", ""),
    ("ppm", "ratio", "1/1000000", "", ""),
    ("° angle", "angle", "1", "", ""),
    ("K", "temperature difference", "1", "metric", ""),
    ("°C difference", "temperature difference", "1", "metric", ""),
    ("°F difference", "temperature difference", "5/9", "inch", ""),
    ("°C", "temperature", "1", "metric", ""),
    ("°F", "temperature", "5/9", "inch", ""),
    ("pH", "acidity", "1", "", ""),
    ("working day", "working time", "1", "", ""),
    ("part", "part", "1", "", ""),
    ("part by weight", "part by weight", "1", "", ""),
    ("part by volume", "part by volume", "1", "", ""),
)
# Scales of which each is measured for itself: figures on two of them cannot be compared.
_SCALES = (
    ("HV", "hardness"),
    ("HB", "hardness"),
    ("HRC", "hardness"),
    ("HRB", "hardness"),
    ("dB", "sound level"),
    ("dB(A)", "sound level"),
    ("dB(C)", "sound level"),
)
_BASE = {
    "area": (("length", 2),),
    "volume": (("length", 3),),
    "acceleration": (("length", 1), ("time", -2)),
    "force": (("length", 1), ("mass", 1), ("time", -2)),
    "pressure": (("length", -1), ("mass", 1), ("time", -2)),
    "energy": (("length", 2), ("mass", 1), ("time", -2)),
    "power": (("length", 2), ("mass", 1), ("time", -3)),
    "charge": (("current", 1), ("time", 1)),
    "ratio": (),
}
_NAMED: dict[Dimensions, str] = {
    **{dimensions: kind for kind, dimensions in _BASE.items()},
    (("length", 1), ("time", -1)): "speed",
    (("revolution", 1), ("time", -1)): "rotation speed",
    (("length", 1), ("revolution", -1)): "feed",
    (("length", -3), ("mass", 1)): "density",
    (("length", -2), ("mass", 1)): "mass per area",
    (("current", 1), ("length", -2)): "current density",
    (("length", 3), ("time", -1)): "flow",
    (("length", -1),): "coverage",
    (("mass", 1), ("time", -1)): "mass flow",
}
_SPELLED = frozenset({"count", "part", "part by weight", "part by volume", "working time"})
# Shown to people as words or with a note; written by symbol.
_PEOPLE = {
    "d": ("day", "days"),
    "wk": ("week", "weeks"),
    "mo": ("month", "months"),
    "y": ("year", "years"),
    "working day": ("working day", "working days"),
    "part": ("part", "parts"),
    "part by weight": ("part by weight", "parts by weight"),
    "part by volume": ("part by volume", "parts by volume"),
    "gal": ("US gal", "US gal"),
    "fl oz": ("US fl oz", "US fl oz"),
    "mi": ("mile", "miles"),
}
# Written otherwise than by symbol: a bare gallon is nobody's yet.
_WRITTEN = {"gal": "US gal", "gallon": "gal"}
_ALSO = {"lb ft": "lbf ft", "lb in": "lbf in", "US gal": "gal", "US fl oz": "fl oz"}
# Words with which the notation itself is written; as a counted noun they could not be read.
RESERVED = frozenset((
    "or", "to", "per", "plus", "minus", "x", "of", "whichever", "ask", "some", "perhaps", "lowest",
    "highest", "judged", "from", "aim", "about", "min", "max", "over", "under", "same", "by", "each",
    "every", "first", "last", "start", "end", "then", "in", "full", "more", "before", "after", "during",
    "once",
))  # fmt: skip
_NOUN = re.compile(r"[^\W\d_]\w*(?:-\w+)*(?: [^\W\d_]\w*(?:-\w+)*)*")
_POWERS = {"2": 2, "²": 2, "3": 3, "³": 3}
_RAISED = {2: "²", 3: "³"}


def _listed() -> dict[str, Unit]:
    table: dict[str, Unit] = {}
    for symbol, kind, factor, system, others in _LISTED:
        one, many = _PEOPLE.get(symbol, (symbol, symbol))
        offset = Fraction(-160, 9) if symbol == "°F" else Fraction(0)
        dimensions = _BASE.get(kind, ((kind, 1),))
        unit = Unit(symbol, kind, Fraction(factor), dimensions, system, offset, one, many)
        for name in (symbol, many, *others.split()):
            table[name] = unit
    for symbol, kind in _SCALES:
        table[symbol] = Unit(symbol, kind, Fraction(1), ((symbol, 1),), "", Fraction(0), symbol, symbol)
    for name, symbol in _ALSO.items():
        table[name] = table[symbol]
    # Greek mu and the micro sign look alike and are both typed.
    table.update({name.replace("µ", "μ"): unit for name, unit in table.items() if "µ" in name})
    return table


LISTED: dict[str, Unit] = _listed()
WHICH_GALLON = Unit("gallon", "volume", LISTED["gal"].factor, LISTED["gal"].dimensions, "", Fraction(0), "gal", "gal")
"""A bare ``gal``: nobody has said whose. It is never converted, and bounds nothing; made units (``lb/gal``) are US."""
_DIFFERENCE = {"°C": LISTED["°C difference"], "°F": LISTED["°F difference"]}


_LOOKED_THROUGH, _LOOKED_AT = 1000, 200
"""So many words are all held against a misspelt one; of more, so many that begin and that end like it."""


@dataclass(frozen=True)
class UnitTable:
    """Units by the word they are written with; in ``several`` those of more words, by their first."""

    single: dict[str, Unit]
    several: dict[str, tuple[tuple[tuple[str, ...], Unit], ...]]
    nouns: frozenset[str]

    def like(self, word: str) -> list[str]:
        """Words that a misspelt one may mean: all of them; of many only those that begin or end alike."""
        if len(self.single) <= _LOOKED_THROUGH:
            return [name for name in self.single if len(name) > 1 and not name.startswith("μ")]
        begun, ended = self._by_ends.get(word[:2], []), self._by_ends.get(f" {word[-2:]}", [])
        return [*dict.fromkeys((*begun[:_LOOKED_AT], *ended[:_LOOKED_AT]))]

    @cached_property
    def _by_ends(self) -> dict[str, list[str]]:
        found: dict[str, list[str]] = {}
        for name in self.single:
            if len(name) > 1 and not name.startswith("μ"):
                found.setdefault(name[:2], []).append(name)
                found.setdefault(f" {name[-2:]}", []).append(name)
        return found


def noun_unit(noun: str) -> Unit:
    """The unit of things one counts, by the singular of the noun."""
    return Unit(noun, "count", Fraction(1), ((f"counted {noun}", 1),), "", Fraction(0), noun, plural(noun))


@lru_cache(maxsize=64)
def unit_table(nouns: frozenset[str] = frozenset()) -> UnitTable:
    """Listed units, common nouns and these nouns, each also in the plural. Listed units win."""
    wanted = {" ".join(noun.split()) for noun in nouns} | COMMON
    wanted = {n for n in wanted if _NOUN.fullmatch(n) and not RESERVED.intersection(n.split())}
    wanted = {n for n in wanted if n not in LISTED and plural(n) not in LISTED}
    plurals = {plural(noun): noun for noun in sorted(wanted)}
    names: dict[str, Unit] = {}
    for noun in sorted(wanted):
        if noun not in plurals or plurals[noun] == noun:
            names[noun] = names[plural(noun)] = noun_unit(noun)
    names.update(LISTED)
    names["gal"] = WHICH_GALLON
    several: dict[str, list[tuple[tuple[str, ...], Unit]]] = {}
    for name, unit in names.items():
        first, *rest = name.split()
        if rest:
            several.setdefault(first, []).append((tuple(rest), unit))
    longest_first = {
        first: tuple(sorted(options, key=lambda option: -len(option[0])))
        for first, options in several.items()
    }
    return UnitTable({n: u for n, u in names.items() if " " not in n}, longest_first, nouns)


def difference(unit: Unit) -> Unit:
    """The unit of differences on a temperature scale; any other unit is its own."""
    return _DIFFERENCE.get(unit.symbol, unit)


def _kind(dimensions: Dimensions, fallback: str) -> str:
    if len(dimensions) == 1 and dimensions[0][1] == 1:
        base = dimensions[0][0]
        return "count" if base.startswith("counted ") else base
    return _NAMED.get(dimensions, fallback)


def _join(a: Dimensions, b: Dimensions, power: int) -> Dimensions:
    total = dict(a)
    for base, exponent in b:
        total[base] = total.get(base, 0) + power * exponent
    return tuple(sorted((base, exponent) for base, exponent in total.items() if exponent))


def _raised(word: str, table: UnitTable) -> Unit | None:
    """``mm²`` or ``mm2``: a length (or, under a line, a time) to the second or third power."""
    unit = table.single.get(word)
    if unit is WHICH_GALLON:
        return LISTED["gal"]
    if unit is not None:
        return unit
    base = LISTED.get(word[:-1])
    power = _POWERS.get(word[-1:])
    if base is None or power is None or base.kind not in ("length", "time"):
        return None
    dimensions: Dimensions = ((base.kind, power),)
    symbol = base.symbol + _RAISED[power]
    kind = _kind(dimensions, f"{base.kind} to the power {power}")
    return Unit(symbol, kind, base.factor**power, dimensions, base.system, Fraction(0), symbol, symbol)


@lru_cache(maxsize=4096)
def compound(word: str, nouns: frozenset[str] = frozenset()) -> Unit | None:
    """A unit made of listed ones: ``mm²``, ``m/s``, ``kg/m³``, ``h/day``, ``strokes/min``; or None."""
    table = unit_table(nouns)
    over, line, under = word.partition("/")
    top = _raised(over, table)
    if top is None or not line:
        return top
    bottom = _raised(under, table)
    return None if bottom is None else quotient(top, bottom)


@lru_cache(maxsize=4096)
def quotient(top: Unit, bottom: Unit, number: Fraction = Fraction(1)) -> Unit:
    """The unit ``top`` per ``number`` of ``bottom``. A temperature in it counts as a difference."""
    a, b = difference(top), difference(bottom)
    dimensions: Dimensions
    if a.kind == b.kind == "time":
        # Hours a day are a load, not a ratio: 8 h/day is not a third.
        kind, dimensions = "time per time", (("time per time", 1),)
    else:
        dimensions = _join(a.dimensions, b.dimensions, -1)
        kind = _kind(dimensions, f"{a.kind} per {b.kind}")
    system: System = "inch" if "inch" in (a.system, b.system) else a.system or b.system
    factor = a.factor / (b.factor * number)
    one, many = f"{a.one}/{bottom.one}", f"{a.many}/{bottom.one}"
    return Unit(f"{top.symbol}/{bottom.symbol}", kind, factor, dimensions, system, Fraction(0), one, many)


def product(a: Unit, b: Unit) -> Unit:
    """The base unit of a product: 5 strokes x 2 mm per stroke is a length.

    It is a listed unit where there is one for what comes out.
    """
    dimensions = _join(a.dimensions, b.dimensions, 1)
    kind = _kind(dimensions, f"{a.kind} times {b.kind}")
    for unit in LISTED.values():
        if unit.dimensions == dimensions and unit.kind == kind and unit.factor == 1:
            return unit
    symbol = f"{a.symbol}·{b.symbol}"
    return Unit(symbol, kind, Fraction(1), dimensions, "", Fraction(0), symbol, symbol)


def find_unit(text: str, nouns: frozenset[str] = frozenset()) -> Unit | None:
    """The unit written as this text, or None."""
    words = text.split()
    table = unit_table(nouns)
    if len(words) == 1:
        return table.single.get(words[0]) or compound(words[0], nouns)
    for rest, unit in table.several.get(words[0], ()) if words else ():
        if tuple(words[1:]) == rest:
            return unit
    return None
