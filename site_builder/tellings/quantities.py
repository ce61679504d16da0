"""The quantities in one cue, read from its own words alone; what is left unsaid, ``in_context`` adds."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from site_builder.tellings.not_quantities import is_no_quantity, is_place, names_a_thing
from site_builder.tellings.nouns import STOPS, counted_at, last_plural
from site_builder.tellings.numerals import Numeral, numeral_at
from site_builder.tellings.rhythms import rhythm_at, vague_at
from site_builder.tellings.shares import HALVED, change, multiple, pair, ratio, share
from site_builder.tellings.spoken import Spoken
from site_builder.tellings.surroundings import closed
from site_builder.tellings.tokens import Token, listed, tokens
from site_builder.tellings.unit_words import DIFFERENCE, TIME_UNITS, UNITS, family, unit_at
from site_builder.tellings.units_behind import rate_behind, unit_behind, with_more
from site_builder.tellings.unnamed import unnamed

_TO = frozenset(("to", "till", "through", "-", "–", "—", "−", "…"))
_SOFTENED = frozenset(("maybe", "perhaps", "about", "even", "at", "say", "up"))
ON_CONDITION = listed("if on for when in with where at by unless under")
"""``two seconds, three on a big one``: two cases, no from and to."""
_APART = listed("more less warmer colder hotter cooler higher lower apart difference either up down")


def quantities(text: str) -> list[Spoken]:
    """Every quantity said in these words, in order."""
    words = tokens(text)
    found: list[Spoken] = []
    i = 0
    while words[i].kind != "end":
        here = rhythm_at(words, i) or vague_at(words, i) or _at(words, i, text)
        if here is None:
            i += 1
            continue
        spoken, i = here
        found += spoken
    return found


def _at(words: list[Token], i: int, text: str) -> tuple[list[Spoken], int] | None:
    """What is said from this token on: quantities (or none, where the number is none) and the token after."""
    first = numeral_at(words, i)
    if first is None:
        return _single(words, i)
    after = is_no_quantity(words, i, first)
    if after is not None:
        return [], after
    if first.pair is not None:
        return pair(words, i, first)
    product = numeral_at(words, first.end + 1) if words[first.end].text == "times" else None
    if product is not None:
        return [], product.end  # three times eight
    return (
        unnamed(words, i, first)
        or change(words, i, first)
        or multiple(words, i, first)
        or ratio(words, i, first, text)
        or _measure(words, i, first)
    )


def _single(words: list[Token], i: int) -> tuple[list[Spoken], int] | None:
    """``an hour``, ``an inch``: one of a unit."""
    if words[i].text not in ("a", "an") or (i and _is_rate(words, i)):
        return None
    k = i + 1 + (words[i + 1].text in ("good", "full", "whole"))
    unit = unit_at(words, k, figure=False)
    if unit is None or unit[0] in ("rev", "part"):
        return _one_or_two(words, i)
    if unit[0] == "degrees" and words[k].text == "degree" and i and words[i - 1].text == "within":
        return closed(words, i, unit[1], Spoken(0, 0, Fraction(1), None, DIFFERENCE))
    if unit is None or unit[0] in ("%", "part", "degrees") or words[k].text.endswith("s"):
        return None
    spare = words[unit[1]].text
    if (unit[0] == "s" and spare != "or") or is_place(words, i, k):
        return None
    if (
        unit[0] in TIME_UNITS
        and words[unit[1]].text in ("before", "after", "when", "at")
        and words[unit[1] + 1].text == "which"
    ):
        return [], unit[1]
    if spare == "or" and words[unit[1] + 1].text == "two":
        return closed(words, i, unit[1] + 2, Spoken(0, 0, Fraction(1), Fraction(2), unit[0]))
    if unit[0] in ("d", "y", "wk", "mo", "m") and words[i - 1].text in ("such", "what", "quite", "one"):
        return None
    found = Spoken(0, 0, Fraction(1), None, unit[0], lead="min" if words[i + 1].text == "good" else "")
    end, found = with_more(words, unit[1], found)
    per = rate_behind(words, end, unit[0])
    if per is not None and per[0] == unit[0]:
        found, end = replace(found, per=per[1]), per[2]
    return closed(words, i, end, found)


def _one_or_two(words: list[Token], i: int) -> tuple[list[Spoken], int] | None:
    """``a drop or two``, ``a turn and a half``, ``a pint``: of things that are counted."""
    noun, rest = words[i + 1], [word.text for word in words[i + 2 : i + 5]]
    if not noun.is_word or noun.text in STOPS or numeral_at(words, i + 1) is not None:
        return None
    if rest[:2] == ["or", "two"] and unit_at(words, i + 4, figure=False) is None and rest[2] not in STOPS | {"more"}:
        return closed(words, i, i + 4, Spoken(0, 0, Fraction(1), Fraction(2), noun.text))
    if rest == ["and", "a", "half"]:
        return closed(words, i, i + 5, Spoken(0, 0, Fraction(3, 2), None, noun.text))
    if noun.text in ("pint", "quart") and (not rest[0].isalpha() or rest[0] in ("of", "to", "for", "in", "at")):
        return closed(words, i, i + 2, Spoken(0, 0, Fraction(1), None, noun.text))
    return None


def _is_rate(words: list[Token], i: int) -> bool:
    """Whether ``a minute`` stands behind something counted: ``turns a minute``, ``once a day``."""
    before = words[i - 1].text
    if i > 1 and words[i - 1].is_word and before not in STOPS and words[i - 2].text in ("one", "another"):
        return True
    return (
        before in ("once", "twice", "times", "many", "much")
        or before
        in ("turns", "revs", "strokes", "drops", "beats", "pieces", "blows", "passes", "loads", "rpm", "percent")
        or words[i - 1].kind == "number"
        or numeral_at(words, i - 1) is not None
    )


def _measure(words: list[Token], i: int, first: Numeral) -> tuple[list[Spoken], int] | None:
    low, j, unit = first.value, first.end, ""
    found = share(words, i, first)
    if found is not None:
        return found
    said = unit_behind(words, j, first)
    if said is not None:
        unit, j = said
    low, high, j, unit = _second(words, j, first, unit)
    noun = False
    if not unit and first.fraction and high is None and words[j + (words[j].text == "a")].text in HALVED:
        k = j + (words[j].text == "a")
        unit, j, noun = words[k].text, k + 1, True
    if not unit:
        counted = _noun(words, j, low, high)
        if counted is not None:
            (unit, j), noun = counted, True
    if not unit and high is None and not first.digits and low == 1:
        return [], j
    if noun and high is None and words[j].text == "," and words[j + 1].text in ("maybe", "perhaps", "sometimes"):
        other = numeral_at(words, j + 2)
        if other is not None and low < other.value <= 3 * low and counted_at(words, other.end, one=False) is None:
            high, j = other.value, other.end
    spoken = Spoken(0, 0, low, high, unit, decimal=first.digits and not first.fraction and low.denominator != 1)
    if unit and not noun:
        j, spoken = with_more(words, j, spoken)
    if (
        not unit
        and high is None
        and low >= 1
        and words[j].text in ("above", "below", "over", "under")
        and words[j + 1].text in ("the", "that", "it", "dew", "what", "its", "ambient", "freezing", "boiling")
    ):
        spoken = replace(spoken, unit=DIFFERENCE)
    if unit in ("degrees", "°C", "°F") and _is_difference(words, i, j):
        spoken = replace(spoken, unit=f"{unit} difference")
    per = rate_behind(words, j, unit) if unit else None
    ways = tuple(word.text for word in words[j : j + 3])
    if unit and high is None and (ways == ("up", "or", "down") or ways[:2] in (("either", "way"), ("either", "side"))):
        spoken = replace(spoken, form="either")
        return closed(words, i, j + (3 if ways[0] == "up" else 2), spoken)
    if per is not None:
        spoken, j = replace(spoken, unit=per[0], per=per[1]), per[2]
    return closed(words, i, j, spoken)


def _second(words: list[Token], j: int, first: Numeral, unit: str) -> tuple[Fraction, Fraction | None, int, str]:
    """The lower end, the other end of a range (``to a hundred and ten degrees``, ``or four coats``, ``, thirty
    minutes``), the token after it, and the unit of both."""
    link, k = words[j].text, j + 1
    alone = first.value, None, j, unit
    if words[k].text in _SOFTENED and link in ("to", "or", ","):
        k += 2 if words[k].text in ("at", "up") and words[k + 1].text in ("most", "to") else 1
    second = numeral_at(words, k)
    if second is None or second.pair is not None or (link not in _TO and link not in ("or", ",", "and")):
        return alone
    low, high = first.value, second.value
    other, after = unit_behind(words, second.end, second) or ("", second.end)
    if unit and other and (family(unit) != family(other) or (unit != other and family(unit) == "temperature")):
        return alone
    if second.times > 1 and low < high / second.times and first.times == 1 and not unit:
        low *= second.times  # six or seven hundred
    if link in _TO and high < low and 0 < high < 100 <= low and not unit:
        high = low - low % 100 + high  # a hundred and five to ten
    other_low = _in_the_same(low, unit, other) if unit and other else low
    goes_on = (
        link in _TO
        or (link == "and" and _word_before(words, j) == "between")
        or (link in (",", "or") and k > j + 1 and other_low < high <= 3 * other_low)
        or (link == "or" and low < high <= 4 * low)
        or (
            link == ","
            and not unit
            and low < high <= 2 * low + 1
            and bool(other or counted_at(words, second.end, one=False))
        )
        or (link == "," and unit == other != "" and low < high <= 2 * low and words[after].text not in ON_CONDITION)
    )
    if unit and other and unit != other:
        low, unit = _in_the_same(low, unit, other), other
    return (low, high, after, other or unit) if goes_on and high > low else alone


def _word_before(words: list[Token], j: int) -> str:
    """The word right before the number that ends here."""
    i = j - 1
    while i >= 0 and (
        words[i].text in ("and", "-", "a", "an", "of")
        or words[i].text in UNITS
        or words[i].kind in ("number", "vulgar")
        or numeral_at(words, i) is not None
    ):
        i -= 1
    return words[i].text if i >= 0 else ""


def _in_the_same(number: Fraction, unit: str, other: str) -> Fraction:
    """Half a minute to two hours: the first in the unit of the second."""
    if unit in TIME_UNITS and other in TIME_UNITS and TIME_UNITS[unit] and TIME_UNITS[other]:
        return number * TIME_UNITS[unit] / TIME_UNITS[other]
    return number


def _noun(words: list[Token], j: int, low: Fraction, high: Fraction | None) -> tuple[str, int] | None:
    if low.denominator != 1 and high is None:
        return counted_at(words, j, one=False) if low > 1 else None
    if words[j].text == "of" and words[j + 1].text in ("them", "these", "those"):
        noun = None if low == 1 else last_plural(words, j - 1)
        return None if noun is None else (noun, j + 2)
    if names_a_thing(words, j):
        return None
    return counted_at(words, j, one=low == 1 and high is None)


def _is_difference(words: list[Token], i: int, j: int) -> bool:
    """``ten degrees warmer``, ``within five degrees of it``, ``five degrees above the dew point``."""
    after, then = words[j].text, words[j + 1].text
    if then == "the" and words[j + 2].text in ("vertical", "horizontal", "upright", "line", "face", "grain", "square"):
        return False
    if after in _APART or (
        after in ("above", "below", "over", "under", "off", "of", "from")
        and then in ("the", "that", "it", "what", "its", "each")
    ):
        return True
    if after == "off" and (not words[j + 1].is_word or then in ("and", "at", "for", "when", "if", "then")):
        return True  # knock thirty degrees off
    return i > 0 and (words[i - 1].text in ("by", "within", "every", "each") or words[i - 2].text == "within")
