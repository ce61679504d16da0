"""The word that a slip of the hand meant."""

from __future__ import annotations

import random
from difflib import get_close_matches

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builder.notebook.nearest import nearest, nearest_named, slip_of
from site_builder.notebook.slips import least_slips, letters, plain, slips
from site_builder.notebook.vocabulary import SMALL, Vocabulary
from tests.calls import calls_of

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


@given(WORDS, WORDS)
def test_letters_that_are_lacking_never_count_for_more_slips_than_there_are(one: str, other: str) -> None:
    assert least_slips(letters(one), letters(other)) <= slips(one, other)


@given(WORDS.filter(bool), st.lists(WORDS.filter(bool), max_size=12))
def test_nothing_that_is_alike_is_passed_over_among_few_words(word: str, known: list[str]) -> None:
    alike = get_close_matches(word, sorted(set(known)), 1, 0.7)
    assert not alike or Vocabulary(known).nearest(word)


def _ids(number: int) -> list[str]:
    """Ids as a large shop has them: of few words, many times over."""
    chance = random.Random(11)
    work, thing = ("shave", "turn", "bore", "cast", "fold", "press"), ("stave", "bell", "hoop", "crown", "rim", "chime")
    return [f"{chance.choice(work)}-{chance.choice(thing)}-{n}" for n in range(number)]


def test_a_slip_among_very_many_ids_is_still_known() -> None:
    ids, chance = _ids(6 * SMALL), random.Random(12)
    known, right = Vocabulary(ids), 0
    for id_ in chance.sample(ids, 60):
        at = chance.randrange(1, 6)
        right += known.nearest(id_[:at] + id_[at + 1] + id_[at] + id_[at + 2 :]) == id_
    assert right >= 57


def test_many_misspelt_words_against_many_known_ones_are_no_product_of_the_two() -> None:
    def asked(known: int) -> int:
        words = Vocabulary(_ids(known))
        words.nearest("shvae-stvae-1")  # what is made ready once
        return calls_of(lambda: [words.nearest(f"shvae-stvae-{n}") for n in range(40)])

    assert asked(16 * SMALL) < 1.5 * asked(4 * SMALL)
    assert asked(16 * SMALL) < 1.5 * asked(SMALL)


def test_the_count_would_see_each_word_held_against_each() -> None:
    def asked(known: int) -> int:
        ids = _ids(known)
        return calls_of(lambda: [slips("shvae", one) for one in ids])

    assert asked(4 * SMALL) > 3 * asked(SMALL)
