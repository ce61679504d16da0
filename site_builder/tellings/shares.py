"""Parts and multiples: ``sixty-forty``, ``one of acid to five of water``, ``a third of the wall``."""

from __future__ import annotations

import re
from fractions import Fraction

from site_builder.tellings.nouns import STOPS
from site_builder.tellings.numerals import Numeral, numeral_at
from site_builder.tellings.rhythms import MEASURED
from site_builder.tellings.spoken import Spoken
from site_builder.tellings.surroundings import closed
from site_builder.tellings.tokens import Token, listed
from site_builder.tellings.unit_words import UNITS, unit_at

HALVED = listed(
    "bucket barrow cup spoon handful bag sack tin can bottle jug pint quart pot shovel turn pass coat "
    "load batch sheet bar spoonful teaspoon tablespoon glass loaf box"
)
"""Things of which half of one is an amount."""
_SHARES = listed(
    "them it us you me time way people world year day that this these those all everything what which course"
)
_ANY = listed("number amount rate price way rest lot job work trouble fun quantity dose")
"""Half the number: nobody knows of what, without the sentence before."""
_RATIO_WORDS = re.compile(
    r"\b(?:mix|mixed|mixture|ratio|parts?|proportions?|dilut\w+|thinned|mortar|sand|lime|cement|plaster|water|"
    r"vinegar|flour|acid|hardener|resin)\b",
    re.IGNORECASE,
)
_SIZES = {
    "diameters": "diameter",
    "thicknesses": "thickness",
    "widths": "width",
    "lengths": "length",
    "depths": "depth",
    "heights": "height",
}
_SINGLE_SIZES = frozenset(("diameter", "thickness", "width"))


def pair(words: list[Token], i: int, first: Numeral) -> tuple[list[Spoken], int]:
    """``sixty-forty``: two shares of a hundred."""
    assert first.pair is not None
    start, end = words[i].start, words[first.end - 1].end
    return [Spoken(start, end, Fraction(share), None, "%") for share in first.pair], first.end


def ratio(words: list[Token], i: int, first: Numeral, text: str) -> tuple[list[Spoken], int] | None:
    """``one of acid to five of water``, ``four to one``, ``3:1``: parts."""
    j = first.end
    if first.value.denominator != 1 or not 0 < first.value <= 100:
        return None
    if words[j].text == ":" and words[j].glued and words[j + 1].kind == "number" and words[j + 1].glued:
        second = numeral_at(words, j + 1)
        return None if second is None else _parts(words, i, first, j + 1, second)
    if words[j].text in ("to", "in") and (second := numeral_at(words, j + 1)) is not None:
        says_ratio = (second.value == 1 and first.value > 1) or (
            first.value == 1 and second.value > 1 and _RATIO_WORDS.search(text) is not None
        )
        bare = unit_at(words, second.end, figure=False) is None
        if words[j].text == "to" and says_ratio and bare and second.value.denominator in (1, 2):
            return _parts(words, i, first, j + 1, second)
        return None
    if words[j].text != "of":
        return None
    for k in range(j + 2, j + 6):
        if words[k].text in ("to", "and", ",", "with") and (second := numeral_at(words, k + 1)) is not None:
            return _parts(words, i, first, k + 1, second) if words[second.end].text == "of" else None
    return None


def _parts(words: list[Token], i: int, first: Numeral, j: int, second: Numeral) -> tuple[list[Spoken], int]:
    return [
        Spoken(words[i].start, words[first.end - 1].end, first.value, None, "part"),
        Spoken(words[j].start, words[second.end - 1].end, second.value, None, "part"),
    ], second.end


_CHANGED = re.compile(
    r"(?<!\w)(?:thin\w*|dilut\w+|reduc\w+|let down|cut(?:s|ting)?|shrink\w*|los(?:e|es|ing)|gain(?:s|ing)?|"
    r"grow(?:s|ing)?|"
    r"swell\w*|drop(?:s|ping)?|stretch\w*|boil(?:s|ed)? down|weaken\w*|strengthen\w*|lengthen\w*|shorten\w*)"
    r"(?: (?:it|them|that|the \w+|down|out))?(?: by)?(?: (?:about|around|roughly|some|nearly|almost|maybe|"
    r"up to))*(?: an?)? $"
)


def change(words: list[Token], i: int, first: Numeral) -> tuple[list[Spoken], int] | None:
    """``thinned by about a quarter``: how much more or less, in percent where that is a whole number."""
    percent = first.value * 100
    goes_on = words[first.end].text in ("of", "a", "an", "the") or unit_at(words, first.end, figure=False) is not None
    if not first.fraction or first.value >= 1 or percent.denominator != 1 or goes_on:
        return None
    before = " ".join(word.text for word in words[max(0, i - 7) : i]) + " "
    if _CHANGED.search(before) is None:
        return None
    return closed(words, i, first.end, Spoken(0, 0, percent, None, "%"))


def share(words: list[Token], i: int, first: Numeral) -> tuple[list[Spoken], int] | None:
    """``a third of the wall``: a part of another size."""
    j = first.end
    if not first.fraction or first.value >= 1 or words[j].text not in ("of", "the"):
        return None
    if (
        i > 1
        and words[i - 1].text in ("and", "to", "or")
        and words[i - 2].text in ("half", "third", "quarter", "thirds")
    ):
        return [], j
    k = j + (words[j].text == "of")
    if words[k].text in ("a", "an") and words[k + 1].text in HALVED:
        return closed(words, i, k + 2, Spoken(0, 0, first.value, None, words[k + 1].text))
    if words[k].text in ("a", "an") and unit_at(words, k + 1, figure=False) is not None:
        return None
    k += words[k].text in ("the", "its", "their", "your", "a", "an", "my", "his", "her")
    noun = words[k]
    if noun.text in _ANY:
        return [], k + 1
    if not noun.is_word or noun.text in STOPS or noun.text in _SHARES or (noun.text in UNITS and k == j + 1):
        return [], max(k, j)
    name, end = (f"{noun.text} {words[k + 1].text}", k + 2) if words[k + 1].text in MEASURED else (noun.text, k + 1)
    return closed(words, i, end, Spoken(0, 0, first.value, None, "", form="of", of=name))


def multiple(words: list[Token], i: int, first: Numeral) -> tuple[list[Spoken], int] | None:
    """``one and a half diameters``, ``twice the thickness``: a multiple of another size."""
    second = numeral_at(words, first.end + 1) if words[first.end].text in ("to", "or") else None
    j = second.end if second is not None else first.end
    whole = first.value == 1 or first.fraction
    j += words[j].text in ("a", "an") and first.fraction
    k = j + (words[j].is_word and (words[j + 1].text in _SIZES or (whole and words[j + 1].text in _SINGLE_SIZES)))
    size = _SIZES.get(words[k].text) or (words[k].text if whole and words[k].text in _SINGLE_SIZES else None)
    if size is None and words[j].text == "times" and words[j + 1].text in ("the", "its", "that"):
        k = j + 2 if words[j + 3].text not in ("diameter", "thickness", "width", "length") else j + 3
        size = words[k].text if words[k].is_word and words[k].text not in STOPS else None
    if size is None or second is not None or (first.fraction and words[first.end].text in ("the", "of")):
        return None
    return closed(words, i, k + 1, Spoken(0, 0, first.value, None, "", form="x", of=size))
