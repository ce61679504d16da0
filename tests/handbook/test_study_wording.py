"""How questions are put: the notebook's own words are bent only where English comes of it."""

from __future__ import annotations

import pytest

from site_builder.views.study.wording import be, clause, deed, how_much, named, why

NAMES = frozenset({"Edda", "Monday"})


@pytest.mark.parametrize(
    ("point", "question"),
    [
        # an instruction shows itself by the article after the verb
        ("Hold it by the shoulders.", "Why do you hold it by the shoulders?"),
        ("Bring the heat round.", "Why do you bring the heat round?"),
        ("Press the cloth flat.", "Why do you press the cloth flat?"),
        ("Apply a thin coat.", "Why do you apply a thin coat?"),
        ("Keep 1.5 mm clear.", "Keep 1.5 mm clear. Why?"),
        # forbidding and always
        ("Never stand in line with the belt.", "Why do you never stand in line with the belt?"),
        ("Do not push the feeler.", "Why do you not push the feeler?"),
        ("Always wear the mask.", "Why do you always wear the mask?"),
        # no instruction, or none that shows itself: the words stay as they are
        ("Weight over the middle of the sole.", "Weight over the middle of the sole. Why?"),
        ("Thumbs on top, fingers never below the shoulder line.",
         "Thumbs on top, fingers never below the shoulder line. Why?"),
        ("The belt tracks on the centre line.", "The belt tracks on the centre line. Why?"),
        ("Half the weight on the heel.", "Half the weight on the heel. Why?"),
        ("Holding the foot warms it.", "Holding the foot warms it. Why?"),
        ("Exactly the width of a thumb.", "Exactly the width of a thumb. Why?"),
        ("Feeds the belt slowly.", "Feeds the belt slowly. Why?"),
        ("With the run, never against it.", "With the run, never against it. Why?"),
        ("Stand to the left.", "Stand to the left. Why?"),
        ("Wait. Let it cool.", "Wait. Let it cool. Why?"),
        ("Slantwise", "Slantwise. Why?"),
        ("Edda the master looks at it.", "Edda the master looks at it. Why?"),
    ],
)
def test_why(point: str, question: str) -> None:
    assert why(point, NAMES) == question


@pytest.mark.parametrize(
    ("title", "done"),
    [
        ("Grind the sole flat", "grind the sole flat"),
        ("Melt and skim", "melt and skim"),
        ("Fit hood and arm", "fit hood and arm"),
        ("Varnishing the spar", None),
        ("The sole, ground flat", None),
        ("Grinding", None),
        ("P80 on the belt", None),
        ("", None),
    ],
)
def test_a_title_is_an_instruction_unless_it_shows_otherwise(title: str, done: str | None) -> None:
    assert deed(title, NAMES, told_to=True) == done


@pytest.mark.parametrize(
    ("sign", "told"),
    [
        ("It still rocks after five passes.", "it still rocks after five passes"),
        ("A corner is torn out.", "a corner is torn out"),
        ("The edges have gone round", "the edges have gone round"),
        ("There is a hum.", "there is a hum"),
        # noun phrases, and clauses of which the words do not show that they are
        ("Shiny patches, no scratches.", None),
        ("A blue or yellow tinge on the sole.", None),
        ("A film that is white.", None),
        ("The sole slopes to one side.", None),
        ("It clicks. The sole is round.", None),
        ("White dust where the brass is bare", None),
    ],
)
def test_a_sign_that_can_follow_when(sign: str, told: str | None) -> None:
    assert clause(sign, NAMES) == told


@pytest.mark.parametrize(
    ("name", "least", "most", "question"),
    [
        ("flatness of the sole", False, True, "How flat must the sole be"),
        ("thickness of the coat", True, True, "How thick must the coat be"),
        ("height of each seat", False, True, "How high may each seat be at most"),
        ("depth of the groove", True, False, "How deep must the groove be at least"),
        ("heat of the foot", False, True, "How hot may the foot be at most"),
        ("run off centre", False, True, None),
        ("share of returns", False, True, None),
        ("colour of the flame", True, True, None),
        ("coat thickness", True, True, None),
    ],
)
def test_how_much(name: str, least: bool, most: bool, question: str | None) -> None:
    assert how_much(name, least=least, most=most) == question


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("run off centre", "the run off centre is"),
        ("the plate", "the plate is"),
        ("each seat", "each seat is"),
        ("screws in one lantern", "the screws in one lantern are"),
        ("feeler gauges", "the feeler gauges are"),
        ("glass below the ring", "the glass below the ring is"),
        ("flatness of the soles", "the flatness of the soles is"),
    ],
)
def test_the_and_is(name: str, words: str) -> None:
    assert f"{named(name)} {be(name)}" == words
