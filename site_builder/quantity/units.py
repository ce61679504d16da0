"""The listed units: what they are called, what kind they are, and how they convert.

The table itself stands in ``listed.py``; here it is looked up, and units are made of several.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache

from site_builder.quantity.listed import UNITS, System
from site_builder.quantity.nouns import COMMON, plural

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


# Written otherwise than by symbol: a bare gallon is nobody's yet.
_WRITTEN = {"gallon": "gal", **{row.symbol: row.written for row in UNITS if row.written}}


def _listed() -> dict[str, Unit]:
    table: dict[str, Unit] = {}
    for row in UNITS:
        one, many = row.people if row.people[0] else (row.symbol, row.symbol)
        dimensions = ((row.symbol, 1),) if row.scale else _BASE.get(row.kind, ((row.kind, 1),))
        unit = Unit(row.symbol, row.kind, Fraction(row.factor), dimensions, row.system, Fraction(row.offset), one, many)
        for name in (row.symbol, many, *row.also):
            table[name] = unit
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
