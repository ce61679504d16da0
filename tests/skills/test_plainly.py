"""How far somebody has come, in the words of the bench: counts, what is missing, and no statistics."""

import pytest

from site_builder.skills.plainly import plainly_agreed, plainly_due, plainly_pieces
from site_builder.skills.proof.agreement import agreed, tally
from site_builder.skills.proof.leaning import leaning
from site_builder.skills.proof.success_run import pieces_due

SCALE = ("bad", "good")


@pytest.mark.parametrize(("good", "made", "told"), [
    (0, 0, "No pieces yet."), (1, 1, "The one piece was good at the first go."),
    (10, 10, "All 10 were good at the first go."), (1, 10, "1 of 10 was good at the first go."),
    (0, 3, "None of 3 was good at the first go."), (70, 75, "70 of 75 were good at the first go."),
])
def test_pieces(good: int, made: int, told: str) -> None:
    assert plainly_pieces(good, made) == told


def test_what_is_still_missing() -> None:
    assert plainly_due(pieces_due(0.9, 0.9, 4, 1)) == "34 more without a fault, and the proof is there."
    assert plainly_due(pieces_due(0.9, 0.9, 22, 0)) == "That is enough for the proof."


def told_of(teachers: dict[str, str], own: dict[str, str]) -> str:
    pairs = {piece: (grade, own[piece]) for piece, grade in teachers.items()}
    table = tally([one for one, _ in pairs.values()], [two for _, two in pairs.values()], SCALE)
    return plainly_agreed(agreed(table), leaning(pairs, SCALE), "Nils", "Edda")


def test_of_ten_feet_they_agreed_on_seven() -> None:
    teachers = {f"foot {n}": "bad" if n < 4 else "good" for n in range(1, 11)}
    own = {**teachers, "foot 1": "good", "foot 2": "good", "foot 9": "bad"}
    assert told_of(teachers, own) == (
        "Of 10 pieces Nils and Edda agreed on 7. Let pass: foot 1, foot 2. Thrown away: foot 9. "
        "Too few to say which way it errs.")


def test_a_habit_is_said_to_be_one() -> None:
    teachers = {f"foot {n}": "bad" for n in range(1, 11)}
    own = dict.fromkeys(teachers, "good")
    told = told_of(teachers, own)
    assert "agreed on none." in told
    assert told.endswith("It is a habit to let bad ones pass.")


def test_all_alike() -> None:
    teachers = {"foot 1": "bad", "foot 2": "good"}
    assert told_of(teachers, teachers) == "Of 2 pieces Nils and Edda agreed on all."
