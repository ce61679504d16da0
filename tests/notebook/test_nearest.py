"""The word that a slip of the hand meant."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builder.notebook.nearest import nearest, nearest_named, plain, slip_of, slips

PEOPLE = {"edda": "Edda Corvane", "josk": "Josk Corvane", "benno": "Benno Ruick"}
WORDS = st.text("abcdef", max_size=9)


@pytest.mark.parametrize(("written", "known", "meant"), [
    ("snese", ("sense", "source", "note"), "sense"),
    ("od", ("do", "load", "id"), "do"),
    ("tunring", ("tuning", "turning"), "turning"),
    ("Belt grinder", ("belt-grinder", "belt-grease"), "belt-grinder"),
    ("belt_grinder", ("belt-grinder",), "belt-grinder"),
    ("“sanding”", ("sanding",), "sanding"),
    ("sаnding", ("sanding",), "sanding"),  # the second letter is Cyrillic
    ("grind", ("grind-foot", "fill-foot"), "grind-foot"),
    ("waste", ("stop", "aside", "none"), ""),
    ("", ("do",), ""),
    ("a" * 5000, ("a",), ""),
])
def test_the_nearest_word_is_the_one_that_was_meant_or_none(written: str, known: tuple[str, ...], meant: str) -> None:
    assert nearest(written, known) == meant


@pytest.mark.parametrize(("written", "meant"), [
    ("Edda", "edda"), ("edda corvane", "edda"), ("ebenno", "benno"), ("Corvane", ""), ("the smith", ""),
])
def test_a_person_is_known_by_the_first_name_or_the_whole_one(written: str, meant: str) -> None:
    assert nearest_named(written, PEOPLE) == meant


def test_a_word_of_its_own_is_no_slip() -> None:
    assert slip_of("temperature of the room", ("room temperature",)) == ""


@given(WORDS, WORDS)
def test_slips_are_counted_alike_both_ways_and_none_are_made_by_the_same_word(one: str, other: str) -> None:
    assert slips(one, other) == slips(other, one)
    assert (slips(one, other) == 0) == (one == other)
    assert abs(len(one) - len(other)) <= slips(one, other) <= max(len(one), len(other))


@given(WORDS.filter(lambda word: len(word) > 1), st.data())
def test_two_neighbours_swapped_are_one_slip(word: str, data: st.DataObject) -> None:
    at = data.draw(st.integers(0, len(word) - 2))
    other = word[:at] + word[at + 1] + word[at] + word[at + 2 :]
    assert slips(word, other) == (word != other)


@given(st.text(max_size=40))
def test_a_word_made_plain_stays_as_it_is(word: str) -> None:
    assert plain(plain(word)) == plain(word)
