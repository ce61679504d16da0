"""What stands behind a number: its unit, smaller units after it, and what it is counted by."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from site_builder.tellings.nouns import STOPS
from site_builder.tellings.numerals import Numeral, numeral_at
from site_builder.tellings.spoken import Spoken, in_figures
from site_builder.tellings.tokens import Token
from site_builder.tellings.unit_words import INCH_UNITS, MONEY, TIME_UNITS, UNITS, unit_at

_PER = (
    ("for", "the", "first"),
    ("to", "the"),
    ("to", "every"),
    ("for", "every"),
    ("for", "each"),
    ("in", "a"),
    ("a",),
    ("an",),
    ("per",),
    ("each",),
    ("every",),
)


def _figure(number: Numeral, unit: str) -> str:
    return in_figures(number.value, fractions=unit in INCH_UNITS)


_SIDES = frozenset(("side", "face", "end", "edge", "piece", "coat", "pass", "sheet"))
_NAMED = frozenset(("celsius", "centigrade", "fahrenheit", "millimetres", "millimeters", "inches", "percent"))


def unit_behind(words: list[Token], j: int, number: Numeral) -> tuple[str, int] | None:
    """The unit behind a number: at once, behind a hyphen, behind ``of a`` or ``a`` where the number is a part."""
    k = j
    if words[k].text == "-" and words[k + 1].is_word:
        k += 1
    if number.fraction or number.value < 1 or (number.value.denominator != 1 and not number.digits):
        if words[k].text == "of" and words[k + 1].text in ("a", "an", "one"):
            k += 2
        elif words[k].text in ("a", "an"):
            k += 1
    if number.value.denominator == 1 and words[k].text == "grit":
        return "grit", k + 1
    if words[k].text in MONEY:
        return None
    if words[k].text == "in" and words[k + 1].text in _NAMED and not words[k + 2].text.startswith(words[k + 1].text):
        return UNITS[words[k + 1].text], k + 2  # ten in Celsius
    said_after = k + 1 + (words[k + 1].text == "and")
    if words[k].text == "," and UNITS.get(words[said_after].text) in ("°C", "°F"):
        return UNITS[words[said_after].text], said_after + 1
    return unit_at(words, k, figure=number.digits or number.end > j)


def with_more(words: list[Token], j: int, spoken: Spoken) -> tuple[int, Spoken]:
    """``an hour and a half``, ``an hour and twenty minutes``, ``two foot six``."""
    halves = tuple(word.text for word in words[j : j + 3]) == ("and", "a", "half") and not spoken.unit.startswith("°")
    if spoken.high is not None or (
        spoken.unit not in ("h", "min", "ft", "lb", "d", "kg", "m", "y", "wk", "in") and not halves
    ):
        return j, spoken
    k = j + (words[j].text == "and")
    more = numeral_at(words, k)
    if more is None or more.pair is not None:
        return j, spoken
    if (
        k > j
        and more.fraction
        and more.value < 1
        and unit_at(words, more.end, figure=False) is None
        and (words[more.end].text != "of" or (more.value == Fraction(1, 2) and spoken.low > 1))
    ):
        return more.end, replace(spoken, low=spoken.low + more.value)
    unit = unit_behind(words, more.end, more)
    smaller = {
        "h": ("min", "s"),
        "min": ("s",),
        "ft": ("in",),
        "lb": ("oz",),
        "d": ("h",),
        "kg": ("g",),
        "m": ("cm", "mm"),
        "y": ("mo",),
        "wk": ("d",),
    }.get(spoken.unit, ())
    if unit is not None and unit[0] in smaller and more.value > 0:
        return unit[1], replace(spoken, more=((more.value, unit[0]),))
    if k == j and spoken.unit == "m" and unit is None and 10 <= more.value < 100 and spoken.low.denominator == 1:
        return more.end, replace(spoken, more=((more.value, "cm"),))
    if k == j and spoken.unit == "ft" and unit is None and more.value < 12:
        return more.end, replace(spoken, more=((more.value, "in"),))
    return j, spoken


def rate_behind(words: list[Token], j: int, unit: str) -> tuple[str, str, int] | None:
    """``a minute``, ``per litre``, ``to the square foot`` behind a quantity: the unit made of both, or ``per`` a
    noun.
    """
    for lead in _PER:
        if tuple(word.text for word in words[j : j + len(lead)]) != lead:
            continue
        number = numeral_at(words, j + len(lead)) if lead != ("a",) and lead != ("an",) else None
        if number is not None and (below := unit_behind(words, number.end, number)) is not None:
            if below[0] in ("%", "degrees", "part", unit) or (lead[-1] == "first" and below[0] in TIME_UNITS):
                return None
            if unit in TIME_UNITS and below[0] in TIME_UNITS:
                return None
            return unit, f"{_figure(number, below[0])} {below[0]}", below[1]
        below = unit_at(words, j + len(lead), figure=False)
        counted = unit in TIME_UNITS or (unit not in UNITS.values() and "/" not in unit)
        if below is not None and counted and below[0] not in ("%", "degrees", "part", unit, *TIME_UNITS):
            return unit, below[0], below[1]  # an hour per inch, ten stitches to the inch
        if (
            below is not None
            and below[0] != unit
            and below[0] not in ("%", "degrees", "part")
            and unit not in TIME_UNITS
        ):
            top = "rev" if unit in ("rev", "turn", "revolution") and below[0] in TIME_UNITS else unit
            return f"{top}/{below[0]}", "", below[1]
        sided = lead in (("a",), ("an",)) and words[j + 1].text in _SIDES and unit in TIME_UNITS
        if (sided or lead[0] in ("per", "each", "every", "for")) and words[j + len(lead)].is_word:
            noun = words[j + len(lead)].text
            if noun not in STOPS and noun not in UNITS and noun not in ("time", "other"):
                return unit, noun, j + len(lead) + 1
    return None
