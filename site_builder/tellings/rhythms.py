"""Rhythms and figures that nobody gave: ``once a shift``, ``every two hours``, ``a few minutes``, ``as hot as it
will go``.
"""

from __future__ import annotations

from fractions import Fraction

from site_builder.tellings.hedges import hedged
from site_builder.tellings.nouns import STOPS, counted_at
from site_builder.tellings.numerals import numeral_at
from site_builder.tellings.spoken import Form, Spoken
from site_builder.tellings.tokens import Token, listed
from site_builder.tellings.unit_words import TIME_UNITS, UNITS, unit_at

_VAGUE = (
    ("a", "few"),
    ("a", "good", "few"),
    ("quite", "a", "few"),
    ("several",),
    ("some",),
    ("a", "number", "of"),
    ("a", "couple", "of"),
    ("a", "couple"),
    ("couple", "of"),
    ("a", "handful", "of"),
)
MEASURED = listed(
    "life thickness diameter width length depth height weight rate pass size speed time strength volume coat"
)
"""What follows the name of a thing, when it is that of the thing which is measured: the *pot life*, the *wall
thickness*.
"""

_ORDINALS = {
    "other": 2,
    "second": 2,
    "third": 3,
    "fourth": 4,
    "fifth": 5,
    "sixth": 6,
    "seventh": 7,
    "eighth": 8,
    "tenth": 10,
    "twelfth": 12,
    "twentieth": 20,
    "fiftieth": 50,
    "hundredth": 100,
}
_APART = frozenset(("in", "ft", "yd", "mm", "cm", "m"))
_TIMES = {"once": 1, "twice": 2, "thrice": 3}
_WHILES = frozenset(("shift", "batch", "lot", "load", "piece", "belt", "cycle", "run"))


def rhythm_at(words: list[Token], i: int) -> tuple[list[Spoken], int] | None:
    """``once a week``, ``three times a day``, ``every ten minutes``, ``twice the diameter``."""
    word = words[i].text
    if word in ("every", "each") and (word == "every" or numeral_at(words, i + 1) is not None or _time(words, i + 1)):
        return _every(words, i)
    if word == "once" and words[i + 1].text == "in":
        return _every(words, i + 1)
    times, j = _TIMES.get(word, 0), i + 1
    if not times:
        number = numeral_at(words, i)
        if number is None or number.value.denominator != 1 or words[number.end].text != "times" or number.value < 2:
            return None
        times, j = int(number.value), number.end + 1
    if words[i].text not in ("once", "twice", "thrice") and words[j].text not in (
        "a",
        "an",
        "per",
        "every",
        "each",
        "the",
        "its",
    ):
        return None
    span = words[j].text in ("a", "an", "per", "every", "each") and (
        words[j + 1].text in _WHILES or _time(words, j + 1)
    )
    if span:
        of = words[j + 1].text if words[j + 1].text in _WHILES else UNITS[words[j + 1].text]
        return [Spoken(words[i].start, words[j + 1].end, Fraction(times), None, "", form="times", of=of)], j + 2
    if (
        words[i].text == "twice"
        and words[j].text in ("the", "its")
        and words[j + 1].is_word
        and words[j + 1].text not in STOPS
    ):
        two = words[j + 2].text in MEASURED
        k = j + 1 + two
        name = f"{words[j + 1].text} {words[k].text}" if two else words[k].text
        around = hedged(words, i, k + 1)
        return [
            Spoken(
                words[around.start].start,
                words[k].end,
                Fraction(times),
                None,
                "",
                around.lead,
                around.about,
                around.perhaps,
                "x",
                of=name,
            )
        ], k + 1
    return None


def _time(words: list[Token], i: int) -> bool:
    return UNITS.get(words[i].text) in TIME_UNITS and len(words[i].text) > 1


def _every(words: list[Token], i: int) -> tuple[list[Spoken], int] | None:
    number = numeral_at(words, i + 1)
    j = i + 1
    low, high = Fraction(1), None
    if number is not None:
        if number.pair is not None:
            return None
        low, j = number.value, number.end
        other = numeral_at(words, j + 1) if words[j].text in ("to", "or", ",") else None
        if other is not None and other.value > low:
            high, j = other.value, other.end
    elif (counted := _ORDINALS.get(words[j].text)) is not None and not words[j + 1].text.endswith("s"):
        noun = words[j + 1]
        if not noun.is_word or noun.text in STOPS:
            return None
        unit_said = UNITS[noun.text] if _time(words, j + 1) else noun.text
        return [Spoken(words[i].start, noun.end, Fraction(counted), None, unit_said, form="every")], j + 2
    elif _time(words, j) and not words[j].text.endswith("s"):
        pass  # every hour
    else:
        return None
    if words[j].text == "of" and low < 1:
        j += 1
    if words[j].text in ("a", "an") and low < 1:
        j += 1
    unit = unit_at(words, j, figure=False) or counted_at(words, j, one=False)
    if unit is None or unit[0] in ("degrees", "°C", "°F"):
        return None
    around = hedged(words, i, unit[1])
    form: Form = "value" if unit[0] in _APART else "every"  # rivets every four inches: so far apart
    return [
        Spoken(words[around.start].start, words[around.end - 1].end, low, high, unit[0], about=around.about, form=form)
    ], max(unit[1], around.end)


def vague_at(words: list[Token], i: int) -> tuple[list[Spoken], int] | None:
    """``a few minutes``: of this unit, the figure not told."""
    if words[i].text in ("first", "last") and words[i - 1].text in ("the", "in", "your", "his", "her", "for") and i:
        unit = unit_at(words, i + 1, figure=False)
        if (
            unit is not None
            and unit[0] in TIME_UNITS
            and not words[i + 1].text.endswith("s")
            and words[i - 1].text != "for"
        ):
            form: Form = "first" if words[i].text == "first" else "last"
            return [Spoken(words[i].start, words[unit[1] - 1].end, Fraction(1), None, unit[0], form=form)], unit[1]
    for phrase in _VAGUE:
        j = i + len(phrase)
        if tuple(word.text for word in words[i:j]) != phrase:
            continue
        unit = unit_at(words, j, figure=False)
        if unit is None or not words[j].text.endswith(("s", "t")) or unit[0] in ("%", "part", "°C", "°F"):
            return None
        around = hedged(words, i, unit[1])
        if "couple" in phrase:
            low = Fraction(2)
            return [
                Spoken(words[i].start, words[unit[1] - 1].end, low, None, unit[0], about=True, lead=around.lead)
            ], unit[1]
        return [Spoken(words[i].start, words[unit[1] - 1].end, unit=unit[0], form="some")], unit[1]
    if words[i].text == "as" and words[i + 2].text == "as" and words[i + 1].text in _EXTREMES:
        k = i + 3
        while k < len(words) and words[k].is_word and k < i + 10:
            k += 1
        rest = [w.text for w in words[i + 3 : k]]
        if rest[:1] in (["it'll"], ["it"], ["you"], ["they"], ["they'll"], ["possible"]) and "still" in rest:
            at = rest.index("still")
            of = f"{_EXTREMES[words[i + 1].text]} that {' '.join(rest[at:])}s"
            return [Spoken(words[i].start, words[k - 1].end, form="lowest", of=of)], k
        if (
            "without" in rest
            and rest[-1].endswith("ing")
            and len(rest[-1]) > 5
            and rest.index("without") == len(rest) - 2
        ):
            stem = rest[-1][:-3]
            stem = stem[:-1] if stem[-1] == stem[-2] and stem[-1] in "pbntgm" else stem
            of = f"{_EXTREMES[words[i + 1].text]} that does not {stem}"
            return [Spoken(words[i].start, words[k - 1].end, form="lowest", of=of)], k
    return None


_EXTREMES = {
    "cold": "lowest",
    "near": "lowest",
    "close": "lowest",
    "cool": "lowest",
    "low": "lowest",
    "slow": "lowest",
    "slowly": "lowest",
    "thin": "lowest",
    "little": "lowest",
    "hot": "highest",
    "high": "highest",
    "fast": "highest",
    "thick": "highest",
    "hard": "highest",
}
