"""Quantities as spoken become the notebook's notation, hedges and all."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from site_builder.quantity import parse_cadence, parse_value
from site_builder.tellings.cue import Cue
from site_builder.tellings.in_context import hear
from site_builder.tellings.quantities import quantities
from tests.tellings.measure import same_meaning
from tests.tellings.quantity_phrases import IN_A_CELSIUS_SHOP, LEFT_UNSAID, PHRASES, TAKEN_BACK


def spoken(*texts: str) -> list[list[str]]:
    heard = hear([Cue(f"c{n}", text) for n, text in enumerate(texts)])
    return [[one.notation for one in found if one.known] for found in heard.quantities]


@pytest.mark.parametrize(("said", "meant"), PHRASES)
def test_as_spoken(said: str, meant: str) -> None:
    found = [one for one in hear([Cue("c1", said)]).quantities[0] if one.known]
    assert [one.notation for one in found] == [meant] * bool(meant) or (
        len(found) == 1 and same_meaning(found[0], meant)
    )


@pytest.mark.parametrize(("said", "meant"), IN_A_CELSIUS_SHOP)
def test_with_the_scale_of_the_shop(said: str, meant: str) -> None:
    found = hear([Cue("c", said)], scale="°C").quantities[0]
    assert " | ".join(one.notation for one in found if one.known) == meant


@pytest.mark.parametrize(("said", "meant"), LEFT_UNSAID)
def test_units_left_unsaid(said: tuple[str, ...], meant: tuple[str, ...]) -> None:
    assert [notation for cue in spoken(*said) for notation in cue] == list(meant)


@pytest.mark.parametrize(("said", "expected"), TAKEN_BACK)
def test_taken_back(said: tuple[str, ...], expected: dict[int, int]) -> None:
    heard = hear([Cue(f"c{n}", text) for n, text in enumerate(said)])
    assert {one.cue: one.target for one in heard.takings_back} == expected


def test_what_is_taken_back_is_marked_and_keeps_its_unit() -> None:
    first, second = hear(
        [Cue("a", "Eight hundred to a thousand,"), Cue("b", "ah no, eight hundred to twelve hundred turns a minute.")]
    ).quantities
    assert [(one.notation, one.taken_back) for one in first + second] == [
        ("800..1000 rev/min", True),
        ("800..1200 rev/min", False),
    ]


def test_a_scale_nobody_named_is_not_guessed() -> None:
    (one,) = hear([Cue("a", "A hundred and five degrees.")]).quantities[0]
    assert (one.known, one.unit, one.low) == (False, "degrees", 105)
    (one,) = hear([Cue("a", "A hundred and five degrees.")], scale="°C").quantities[0]
    assert one.notation == "105 °C"


def test_places_are_those_of_the_words() -> None:
    text = "Then it stands, not more than half an hour, and dries."
    (one,) = quantities(text)
    assert text[one.start : one.end] == "not more than half an hour"


WORDS = st.sampled_from(
    [
        "a",
        "an",
        "the",
        "of",
        "to",
        "and",
        "or",
        "in",
        "half",
        "quarter",
        "third",
        "three",
        "two",
        "five",
        "ten",
        "twelve",
        "twenty",
        "thirty-second",
        "fifty",
        "hundred",
        "thousand",
        "point",
        "oh",
        "degrees",
        "inch",
        "inches",
        "minutes",
        "hours",
        "percent",
        "parts",
        "part",
        "pounds",
        "grit",
        "once",
        "every",
        "not",
        "more",
        "than",
        "under",
        "about",
        "good",
        "bit",
        "no",
        "wait",
        "I",
        "mean",
        "first",
        "last",
        "plus",
        "minus",
        "12",
        "1/2",
        "3.5",
        "½",
        ",",
        ".",
        "-",
        "?",
        "per",
        "diameter",
        "coats",
        "Celsius",
        "dozen",
        "millimetres",
        "least",
        "at",
        "up",
        "between",
    ]
)


@settings(max_examples=150, deadline=None)
@given(st.lists(WORDS, max_size=18).map(" ".join))
def test_whatever_is_said_becomes_notation_or_nothing(said: str) -> None:
    for one in hear([Cue("c", said)]).quantities[0]:
        assert 0 <= one.start < one.end <= len(said)
        if one.known and one.form in ("first", "last", "every", "times"):
            parse_cadence(one.notation, one.nouns)
        elif one.known:
            parse_value(one.notation, one.nouns)
