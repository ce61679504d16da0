"""The code on a printed checklist: read back from any typing, and every slip of the hand is noticed."""

from __future__ import annotations

from hashlib import sha256
from typing import TypeVar

import pytest

from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.people import Person, Skill
from site_builder.notebook.reader import read_text
from site_builder.notebook.tree import Map
from site_builder.notebook.validate import validate
from site_builder.skills.initials import initials, meant_by
from site_builder.skills.sheet_code import LETTERS, CodeProblem, sheet_code, skill_of

M = TypeVar("M", bound=Entry)


def read(model: type[M], text: str) -> M:
    """An entry as its file says it."""
    tree = read_text(text, "skills/any.yml").trees[0]
    assert isinstance(tree, Map)
    found, faults = validate(model, tree, frozenset())
    assert isinstance(found, model) and not faults
    return found


def skill(text: str) -> Skill:
    return read(Skill, text)


BELT = "  - {id: belt, show: Changes a belt.}\n"
SIXTY = "  - {id: sixty, show: Grinds sixty feet., evidence: practice}\n"
HEAD = "skill: grinding\ntitle: Grinding\nchecklist:\n"
GRINDING = skill(HEAD + BELT + SIXTY)
PACKING = skill("skill: packing\ntitle: Packing\nchecklist: [{id: clean, show: Packs with clean gloves.}]\n")
SKILLS = {"grinding": GRINDING, "packing": PACKING}


def bare(code: str) -> str:
    return code.replace("-", "")


def told(code: str) -> str:
    with pytest.raises(CodeProblem) as problem:
        skill_of(code, SKILLS)
    return str(problem.value)


def test_a_code_leads_to_its_skill_however_it_is_typed() -> None:
    code = sheet_code(GRINDING)
    for typed in (code, code.lower(), bare(code), " ".join(code.lower()), f"  {code}\n", code.replace("-", "–")):
        assert skill_of(typed, SKILLS) is GRINDING
    assert skill_of(sheet_code(PACKING), SKILLS) is PACKING


def test_no_letter_can_be_taken_for_a_figure() -> None:
    assert len(set(LETTERS)) == 32
    assert set(LETTERS).isdisjoint("0O1I")


def test_the_parts_are_the_beginning_of_the_digest_that_the_module_tells_of() -> None:
    """Reckoned anew with nothing but hashlib: 20 bits, five for a letter."""
    def letters(*texts: str) -> str:
        bits = int(sha256("".join(f"{text}\0" for text in texts).encode()).hexdigest()[:5], 16)
        return "".join(LETTERS[int(f"{bits:020b}"[at : at + 5], 2)] for at in (0, 5, 10, 15))

    code = bare(sheet_code(GRINDING))
    assert code[:4] == letters("skill", "grinding")
    assert code[4:8] == letters("list", "grinding", "belt", "Changes a belt.", "seen", "sixty", "Grinds sixty feet.",
                                "practice")


def test_every_single_wrong_letter_is_noticed() -> None:
    code = bare(sheet_code(GRINDING))
    for at in range(9):
        for letter in LETTERS.replace(code[at], ""):
            assert "a letter is wrong" in told(code[:at] + letter + code[at + 1 :])


def test_every_two_letters_that_have_changed_places_are_noticed() -> None:
    for skill in (GRINDING, PACKING):
        code = bare(sheet_code(skill))
        for one in range(9):
            for other in range(one + 1, 9):
                if code[one] != code[other]:
                    swapped = [*code]
                    swapped[one], swapped[other] = code[other], code[one]
                    assert "two have changed places" in told("".join(swapped))


@pytest.mark.parametrize(
    ("code", "words"),
    [
        ("ABC-DEF-GH", "has 8"),
        ("", "has 0"),
        ("AB0-DEF-GHJ", "there is no 0, O, 1 and I"),
        ("ABC/DEF/GHJ", "`/` stands in no code"),
    ],
)
def test_what_is_no_code_is_told_in_words(code: str, words: str) -> None:
    assert words in told(code)


@pytest.mark.parametrize(
    "checklist",
    [
        BELT.replace("a belt", "a belt in a minute") + SIXTY,
        SIXTY + BELT,
        BELT + SIXTY.replace(", evidence: practice", ""),
        BELT,
        BELT.replace("id: belt, ", "") + SIXTY,
        BELT + SIXTY + "  - Sweeps up.\n",
    ],
    ids=["reworded", "reordered", "shown otherwise", "shorter", "an id less", "longer"],
)
def test_a_sheet_of_an_older_list_is_known(checklist: str) -> None:
    older = skill(HEAD + checklist)
    assert "the list was changed after it was printed" in told(sheet_code(older))
    assert "`grinding` (Grinding)" in told(sheet_code(older))


def test_what_is_not_on_the_sheet_does_not_change_its_code() -> None:
    more = GRINDING.with_changes(title="Grinding on the belt", note="Loud.")
    assert sheet_code(more) == sheet_code(GRINDING)


def test_a_sheet_of_another_shop() -> None:
    other = skill("skill: weaving\ntitle: Weaving\nchecklist: Ties a knot.\n")
    assert "of another shop" in told(sheet_code(other))


@pytest.mark.parametrize(
    ("name", "letters"),
    [("Edda Corvane", "EC"), ("Anna-Lena Berg", "ALB"), ("Mwangi wa Kamau", "MWK"), ("Tilde", "T"),
     ("Åke  Öst", "ÅÖ"), ("Lee (the younger)", "LY")],
)
def test_initials(name: str, letters: str) -> None:
    assert initials(name) == letters


def test_whom_initials_mean() -> None:
    names = {"ann": "Ann Ost", "alva": "Alva Olsen", "bo": "Bo Vik"}
    people = {id_: read(Person, f"name: {name}\n") for id_, name in names.items()}
    assert meant_by("BV", people) == meant_by("b. v.", people) == meant_by("bo", people) == meant_by("Bo Vik", people)
    assert meant_by("BV", people) == ("bo",)
    assert meant_by("ao", people) == ("ann", "alva")
    assert meant_by("Alva", people) == ("alva",)
    assert meant_by("X", people) == meant_by("", people) == meant_by(" . ", people) == ()
