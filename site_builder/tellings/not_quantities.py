"""Numbers that are no quantities: years, ages, hours of the clock, numbers of things, money."""

from __future__ import annotations

from site_builder.tellings.nouns import OF_THE_BODY
from site_builder.tellings.numerals import Numeral
from site_builder.tellings.tokens import Token, listed
from site_builder.tellings.unit_words import MONEY, unit_at

_NAMED = listed(
    "number no step chapter page figure drawing row line rule room type model class grade size "
    "tool station bay section item photo picture sheet"
)
_PERSONS = listed("i he she they we you father mother boy girl")
_AGES = frozenset(("was", "were", "am", "turned", "aged", "age", "i'm", "he's", "she's"))
_YEAR_LEADS = listed("in since from of until till by around about back year spring summer autumn winter")
_ONES = frozenset(
    (
        "one",
        "no",
        "any",
        "this",
        "that",
        "each",
        "every",
        "the",
        "which",
        "another",
        "other",
        "big",
        "small",
        "old",
        "new",
        "long",
        "short",
        "good",
        "bad",
        "first",
        "last",
        "second",
        "next",
        "right",
        "wrong",
    )
)


def is_no_quantity(words: list[Token], i: int, number: Numeral) -> int | None:
    """The token after a number that is no quantity; None where it may be one."""
    before = words[i - 1].text if i else ""
    after = words[number.end]
    has_unit = unit_at(words, number.end, figure=number.digits) is not None
    if after.text in MONEY or before in ("$", "£", "€"):
        return number.end + 1
    if after.text in ("o'clock", "pm") or (after.text in ("past", "to") and before in ("at", "by") and number.fraction):
        return number.end + 1
    if (number.fraction and after.text in ("past", "way")) or (number.fraction and after.text == "as"):
        return number.end + 1
    if before in _NAMED and not has_unit and not (before == "no" and not words[i - 1].raw.startswith("N")):
        return number.end
    if after.text in OF_THE_BODY and not number.fraction:
        return number.end + 1
    if before in ("to", "of") and words[i - 2].text in ("count", "counts", "counting", "counted") and not has_unit:
        return number.end
    told_time = before in ("nearly", "almost", "gone", "past") and words[i - 2].text in ("it's", "is", "just")
    if told_time and not has_unit and number.value <= 12 and not after.is_word:
        return number.end
    if before == "#":
        return number.end
    if before in ("past", "to") and i > 1 and words[i - 2].text in ("half", "quarter"):
        return number.end
    if (
        not has_unit
        and 1500 <= number.value <= 2100
        and number.value.denominator == 1
        and (before in _YEAR_LEADS or (before == "the" and words[i - 2].text in _YEAR_LEADS))
    ):
        return number.end
    if (
        not has_unit
        and before in _AGES
        and 3 < number.value < 100
        and (before not in ("was", "were") or words[i - 2].text in _PERSONS)
        and after.text != "to"
    ):
        return number.end
    if number.value == 1 and not number.digits and number.end == i + 1 and before in _ONES and not has_unit:
        return number.end
    if (
        number.value == 1
        and number.end == i + 1
        and words[number.end].text in ("day", "time", "night", "hand", "second")
    ):
        return number.end + 1 if before not in ("than", "least", "most", "about", "within") else None
    if after.text in ("years", "year") and words[number.end + 1].text in ("old", "ago") and number.value > 3:
        return number.end + 2
    return None


_LIMBS = frozenset(("foot", "yard"))
_MEASURES = listed(
    "or and of long wide deep thick high tall across apart square from above below to off more less each at off in"
)
_MEASURED_BY = listed("about over under than every within by to least most good full further another roughly")


def is_place(words: list[Token], i: int, unit: int) -> bool:
    """``a foot`` that is lifted, ``a yard`` that is swept: neither measures anything."""
    if words[unit].text not in _LIMBS:
        return False
    return words[unit + 1].text not in _MEASURES and (not i or words[i - 1].text not in _MEASURED_BY)


def names_a_thing(words: list[Token], i: int) -> bool:
    """Whether what follows is no noun that is counted: ``two more``, ``three times as long``."""
    return words[i].text == "times" and words[i + 1].text in ("as", "more", "that")
