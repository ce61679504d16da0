"""A quantity with all that stands around it: hedges, how far to either side, first or last."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from site_builder.tellings.hedges import hedged
from site_builder.tellings.numerals import numeral_at
from site_builder.tellings.spoken import Spoken
from site_builder.tellings.tokens import Token
from site_builder.tellings.units_behind import unit_behind

_UP = frozenset(("up", "above", "over", "more", "plus"))
_DOWN = frozenset(("down", "below", "under", "less", "minus"))


def closed(words: list[Token], i: int, j: int, spoken: Spoken) -> tuple[list[Spoken], int]:
    """With the hedges around it, its spread, and its place in the text."""
    spread = _spread(words, j)
    if spread is not None and spoken.high is None:
        spoken = replace(spoken, spread=spread[0], unit=spoken.unit or spread[1])
        j = spread[2]
    around = hedged(words, i, j)
    form = spoken.form
    start = around.start
    before = words[start - 1].text if start else ""
    if form == "value" and before in ("first", "last") and spoken.unit:
        form, start = ("first" if before == "first" else "last"), start - 1
    if start and words[start - 1].text in ("between", "from") and spoken.high is not None:
        start -= 1
    done = replace(
        spoken,
        start=words[start].start,
        end=words[around.end - 1].end,
        lead=around.lead or spoken.lead,
        about=around.about,
        perhaps=around.perhaps,
        form=form,
    )
    return [done], max(j, around.end)


def _spread(words: list[Token], j: int) -> tuple[Fraction, str, int] | None:
    """``plus or minus one``, ``give or take five degrees``."""
    sides = _two_sides(words, j + (words[j].text == ","))
    if sides is not None:
        return sides
    both = numeral_at(words, j + (words[j].text == ","))
    if both is not None:
        unit = unit_behind(words, both.end, both)
        k = unit[1] if unit else both.end
        ways = tuple(word.text for word in words[k : k + 3])
        if ways[:2] in (("either", "way"), ("either", "side"), ("each", "way"), ("each", "side")) or ways == (
            "up",
            "or",
            "down",
        ):
            return both.value, unit[0] if unit else "", k + (3 if ways[0] == "up" else 2)
    j += words[j].text == ","
    for lead in (("plus", "or", "minus"), ("plus", "minus"), ("give", "or", "take"), ("±",)):
        if tuple(word.text for word in words[j : j + len(lead)]) == lead:
            number = numeral_at(words, j + len(lead))
            if number is not None:
                unit = unit_behind(words, number.end, number)
                return number.value, unit[0] if unit else "", unit[1] if unit else number.end
    return None


def _two_sides(words: list[Token], j: int) -> tuple[Fraction, str, int] | None:
    """``five up, five down``, ``plus five and minus five``."""
    unit, numbers, ways = "", [], []
    for _ in range(2):
        j += words[j].text in (",", "and", "or")
        lead = words[j].text if words[j].text in _UP | _DOWN else ""
        number = numeral_at(words, j + bool(lead))
        if number is None:
            return None
        said = unit_behind(words, number.end, number)
        unit, j = said or (unit, number.end)
        way = lead or words[j].text
        j += not lead
        numbers.append(number.value)
        ways.append("up" if way in _UP else "down" if way in _DOWN else "")
    return (numbers[0], unit, j) if numbers[0] == numbers[1] and ways in (["up", "down"], ["down", "up"]) else None
