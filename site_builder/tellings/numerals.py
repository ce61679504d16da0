"""Numbers as they are spoken: ``a hundred and five``, ``three fifteen``, ``eleven and three quarters``, ``point oh
two``.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from site_builder.tellings.tokens import VULGAR, Token

ONES = {w: n for n, w in enumerate(["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"])}
TEENS = {
    w: n
    for n, w in enumerate(
        ["ten", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"],
        10,
    )
}
TENS = {
    w: 10 * n for n, w in enumerate(["twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"], 2)
}
TENS["fourty"] = 40
_NOUGHT = {"zero": 0, "nought": 0, "naught": 0, "oh": 0, "o": 0, "nil": 0}
_PARTS = {
    "half": 2,
    "halves": 2,
    "third": 3,
    "thirds": 3,
    "quarter": 4,
    "quarters": 4,
    "fourth": 4,
    "fourths": 4,
    "fifth": 5,
    "fifths": 5,
    "sixth": 6,
    "sixths": 6,
    "seventh": 7,
    "sevenths": 7,
    "eighth": 8,
    "eighths": 8,
    "ninth": 9,
    "ninths": 9,
    "tenth": 10,
    "tenths": 10,
    "twelfth": 12,
    "twelfths": 12,
    "sixteenth": 16,
    "sixteenths": 16,
    "twentieth": 20,
    "twentieths": 20,
    "hundredth": 100,
    "hundredths": 100,
    "thousandth": 1000,
    "thousandths": 1000,
}
_COMPOUND_PARTS = {
    ("thirty", "second"): 32,
    ("thirty", "seconds"): 32,
    ("sixty", "fourth"): 64,
    ("sixty", "fourths"): 64,
}
_TIMES = {"hundred": 100, "thousand": 1000, "million": 1_000_000, "dozen": 12, "k": 1000}
_ARTICLES = ("a", "an")


@dataclass(frozen=True, slots=True)
class Numeral:
    """A number and where it ends (index of the token after it)."""

    value: Fraction
    end: int
    fraction: bool = False
    """Nothing but a part of one: ``half``, ``three quarters``; a unit may follow with ``of a``."""
    times: int = 1
    """The last multiplier said, which a number before may borrow: ``six or seven hundred``."""
    pair: tuple[int, int] | None = None
    """Two numbers said as shares of a hundred: ``sixty-forty``."""
    digits: bool = False


def numeral_at(words: list[Token], i: int) -> Numeral | None:
    """The number that begins at this token, as long as it goes; None where none begins."""
    here = words[i]
    if here.kind in ("number", "vulgar") or (
        here.text in ("-", "−") and words[i + 1].kind == "number" and words[i + 1].glued and not here.glued
    ):
        return _figures(words, i)
    if not here.is_word:
        return None
    if here.text == "minus":
        after = numeral_at(words, i + 1)
        return None if after is None or after.fraction else Numeral(-after.value, after.end)
    if here.text == "half" and words[i + 1].text == "a" and words[i + 2].text == "dozen":
        return Numeral(Fraction(6), i + 3)
    return _part_of_one(words, i) or _spelled(words, i)


def _figures(words: list[Token], i: int) -> Numeral | None:
    sign = -1 if words[i].text in ("-", "−") else 1
    i += sign < 0
    if words[i].kind == "vulgar":
        return Numeral(sign * VULGAR[words[i].text], i + 1, fraction=True, digits=True)
    value = Fraction(words[i].text.replace(",", ""))
    if words[i + 1].text == "/" and words[i + 1].glued and words[i + 2].kind == "number" and words[i + 2].glued:
        below = Fraction(words[i + 2].text.replace(",", ""))
        return Numeral(sign * value / below, i + 3, fraction=True, digits=True) if below else None
    j, times = i + 1, 1
    part = None
    after = words[j + 1] if words[j].text in ("-", "and") else words[j]
    if value.denominator == 1:
        k = j + (words[j].text in ("-", "and"))
        if after.kind == "vulgar" or (after.kind == "number" and words[k + 1].text == "/" and words[k + 1].glued):
            part = _figures(words, k)
    if part is not None and part.fraction and 0 < part.value < 1:
        return Numeral(sign * (value + part.value), part.end, digits=True)
    if words[j].text in _TIMES and words[j].text != "dozen":
        times = _TIMES[words[j].text]
        value, j = value * times, j + 1
    elif words[j].text == "and" and (more := _part_of_one(words, j + 1)) and not _of_a(words, more.end):
        value, j = value + more.value, more.end
    return Numeral(sign * value, j, times=times, digits=True)


def _of_a(words: list[Token], i: int) -> bool:
    return words[i].text == "of"


def _part_of_one(words: list[Token], i: int) -> Numeral | None:
    """``half``, ``a quarter``, ``three quarters``, ``seven eighths``, ``five thousandths``."""
    j = i + 1 if words[i].text in _ARTICLES else i
    if words[j].text in _PARTS:
        singular = not words[j].text.endswith(("s", "halves"))
        if words[j].text == "half" or (singular and (j > i or words[j].text == "quarter")):
            return Numeral(Fraction(1, _PARTS[words[j].text]), j + 1, fraction=True)
        return None
    if j > i:
        compound = _compound(words, j)
        return None if compound is None else Numeral(Fraction(1, compound[0]), compound[1], fraction=True)
    count = _below_hundred(words, i)
    if count is None:
        return None
    value, after = count
    if words[after].text == "-":
        after += 1
    if value == 0 or value.denominator != 1:
        return None
    compound = _compound(words, after)
    if compound is not None:
        return Numeral(value / compound[0], compound[1], fraction=True)
    word = words[after].text
    if word in _PARTS and word != "half" and (word.endswith("s") or (value == 1 and word != "second")):
        return Numeral(value / _PARTS[word], after + 1, fraction=True)
    return None


def _compound(words: list[Token], i: int) -> tuple[int, int] | None:
    """``thirty-second``, ``sixty-fourths`` as parts of one, and what comes after."""
    second = i + 2 if words[i + 1].text == "-" else i + 1
    found = _COMPOUND_PARTS.get((words[i].text, words[second].text))
    return None if found is None else (found, second + 1)


def _below_hundred(words: list[Token], i: int) -> tuple[Fraction, int] | None:
    """``seven``, ``seventeen``, ``seventy-seven``."""
    word = words[i].text
    if word in TENS:
        j = i + 2 if words[i + 1].text == "-" and words[i + 1].glued else i + 1
        if ONES.get(words[j].text, 0) > 0:
            return Fraction(TENS[word] + ONES[words[j].text]), j + 1
        return Fraction(TENS[word]), i + 1
    if word in TEENS:
        return Fraction(TEENS[word]), i + 1
    if word in ONES:
        return Fraction(ONES[word]), i + 1
    if word in ("nought", "naught"):
        return Fraction(0), i + 1
    return None


def _spelled(words: list[Token], i: int) -> Numeral | None:
    if words[i].text in ("point", "oh") and (part := _decimals(words, i + (words[i].text == "oh"))):
        return Numeral(part[0], part[1])
    article = words[i].text in _ARTICLES
    if article or words[i].text in ("hundred", "thousand"):
        j = i + article
        if words[j].text not in _TIMES or words[j].text == "k":
            return None
        return _with_times(words, Fraction(1), j)
    first = _below_hundred(words, i)
    if first is None:
        return None
    value, j = first
    if words[j].text in _TIMES and words[j].text != "k":
        return _with_times(words, value, j)
    if (part := _decimals(words, j)) is not None:
        return Numeral(value + part[0], part[1])
    hyphen = words[j].text == "-" and words[j].glued
    second = _below_hundred(words, j + hyphen) if value > 0 else None
    if second is not None and second[0] >= 10 and not _begins_part(words, j + hyphen):
        if value >= 10 and value + second[0] == 100 and value.denominator == 1:
            return Numeral(value, second[1], pair=(int(value), int(second[0])))
        if (value < 10 or (not hyphen and (value % 10 or value < 20))) and not _joined_to_word(words, second[1]):
            return _and_part(words, value * 100 + second[0], second[1])
    if value > 0 and words[j].text in ("oh", "o") and ONES.get(words[j + 1].text, 0) > 0:
        return Numeral(value * 100 + ONES[words[j + 1].text], j + 2)
    return _and_part(words, value, j)


def _begins_part(words: list[Token], i: int) -> bool:
    return _compound(words, i) is not None


def _joined_to_word(words: list[Token], i: int) -> bool:
    """``three twenty-minute rests``: the second number belongs to what follows."""
    return words[i].text == "-" and words[i].glued and words[i + 1].glued and words[i + 1].is_word


def _with_times(words: list[Token], value: Fraction, j: int) -> Numeral:
    """What follows ``hundred``, ``thousand`` or ``dozen``."""
    times = _TIMES[words[j].text]
    value, j = value * times, j + 1
    if times == 100 and words[j].text == "thousand":
        value, j, times = value * 1000, j + 1, 1000
    if times == 12:
        return Numeral(value, j, times=12)
    k = j + (words[j].text == "and")
    rest = _spelled(words, k) if times == 1000 else _hundred_rest(words, k)
    if rest is not None and 0 < rest.value < times and rest.pair is None and not _part_of_one(words, k):
        return _and_part(words, value + rest.value, rest.end)
    return _and_part(words, value, j, times)


def _hundred_rest(words: list[Token], k: int) -> Numeral | None:
    rest = _below_hundred(words, k)
    return None if rest is None or words[rest[1]].text in ("hundred", "thousand") else Numeral(*rest)


def _and_part(words: list[Token], value: Fraction, j: int, times: int = 1) -> Numeral:
    """With ``and a half``, ``and three quarters`` behind it, or decimals."""
    if words[j].text == "and" and (part := _part_of_one(words, j + 1)) and part.value < 1:
        if words[part.end].text != "of":
            return Numeral(value + part.value, part.end)
    elif (part_of := _decimals(words, j)) is not None:
        return Numeral(value + part_of[0], part_of[1])
    return Numeral(value, j, times=times)


def _decimals(words: list[Token], i: int) -> tuple[Fraction, int] | None:
    """``point five``, ``point oh two``, ``point seven five``, ``point twenty-five``."""
    if words[i].text != "point":
        return None
    digits, j = "", i + 1
    while True:
        word = words[j].text
        if word in _NOUGHT or word in ONES:
            digits += str(_NOUGHT.get(word, ONES.get(word)))
            j += 1
        elif words[j].kind == "number" and word.isdigit():
            digits += word
            j += 1
        elif (two := _below_hundred(words, j)) is not None and (word in TENS or word in TEENS):
            digits += str(int(two[0]))
            j = two[1]
        else:
            break
    return (Fraction(int(digits), 10 ** len(digits)), j) if digits else None
