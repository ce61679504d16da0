"""Counts of which the noun is not said but meant by everybody: ``you can do it with two``, ``four to the foot``."""

from __future__ import annotations

from site_builder.tellings.nouns import last_plural
from site_builder.tellings.numerals import Numeral
from site_builder.tellings.spoken import Spoken
from site_builder.tellings.surroundings import closed
from site_builder.tellings.tokens import Token, listed
from site_builder.tellings.unit_words import unit_at

LENGTHS = frozenset(("in", "ft", "yd", "cm", "dm", "m"))

_HANDLED = listed("do does done doing lift lifts carry carries hold holds turn turns manage handle work move lay pull")
_DIVIDED = listed("cut cuts saw saws split splits break breaks snap snaps tear tears sawn broken chop divide")


def unnamed(words: list[Token], i: int, number: Numeral) -> tuple[list[Spoken], int] | None:
    """Pieces or people, where the sentence ends behind the number; None where it goes on to a noun."""
    to_the = words[number.end].text == "to" and words[number.end + 1].text in ("the", "a", "an", "each")
    if to_the and number.value.denominator == 1 and (below := unit_at(words, number.end + 2, figure=False)) is not None:
        noun = last_plural(words, i) if below[0] in LENGTHS else None
        found = Spoken(words[i].start, words[below[1] - 1].end, number.value, None, noun or "", per=below[0])
        return ([found] if noun else []), below[1]
    of_whom = words[number.end + 1].text if words[number.end].text == "of" else ""
    if of_whom in ("us", "you") and number.value > 1 and not number.digits:
        return closed(words, i, number.end + 2, Spoken(0, 0, number.value, None, "person"))
    if number.digits or number.value.denominator != 1 or not 2 <= number.value <= 8 or i < 2:
        return None
    if words[number.end].is_word and words[number.end].text not in ("and", "but", "if", "then"):
        return None
    before = [word.text for word in words[max(0, i - 4) : i]]
    if before[-1] == "in" and _DIVIDED.intersection(before):
        unit = "piece"
    elif (before[-1] == "with" and before[-2] in ("it", "that", "them", "this") and _HANDLED.intersection(before)) or (
        before[-1] in ("takes", "needs") and before[-2] in ("it", "that", "this")
    ):
        unit = "person"
    else:
        return None
    return [Spoken(words[i].start, words[number.end - 1].end, number.value, None, unit)], number.end
