"""Counts of which the noun is never said, but meant by everybody: ``you can do it with two``, ``saw it in two``."""

from __future__ import annotations

from site_builder.tellings.numerals import Numeral
from site_builder.tellings.spoken import Spoken
from site_builder.tellings.tokens import Token, listed

_HANDLED = listed("do does done doing lift lifts carry carries hold holds turn turns manage handle work move lay pull")
_DIVIDED = listed("cut cuts saw saws split splits break breaks snap snaps tear tears sawn broken chop divide")


def unnamed(words: list[Token], i: int, number: Numeral) -> tuple[list[Spoken], int] | None:
    """Pieces or people, where the sentence ends behind the number; None where it goes on to a noun."""
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
