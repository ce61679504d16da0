"""Least ages in words, on every page that tells one: with the level where it makes a difference."""

from pathlib import Path

from expectation import book_written, page
from procedure_article import words_of

from site_builder.handbook.pages.procedure import procedure_pages
from site_builder.handbook.pages.staying_whole import whole_pages
from site_builder.handbook.pages.the_hands import hand_pages

PACKING = """\
=== procedures/shop.yml
shop: lamps
title: Lamps
parts: {lamp: Lamp}
=== procedures/lamp/pack.yml
procedure: pack
title: Pack the lamp
part: lamp
skill: packing
steps: [Pack it.]
=== skills/packing.yml
skill: packing
title: Packing
covers: pack
age:
  - {is: min 14 y, for: {level: beside}, because: Light work.}
  - {is: min 16 y, for: {level: [within call, alone, teaches]}, because: A fall is heavy.}
=== skills/people.yml
people:
  ada: {name: Ada Holm, founding: yes, born: 1970}
  lin: {name: Lin Aske, born: 2011-05-03}
"""


def test_the_work_and_the_skill_tell_the_age_with_the_level(tmp_path: Path) -> None:
    book = book_written(PACKING, tmp_path)
    age = "from 14 years of age to work beside somebody; from 16 years of age to work within call or alone, or to teach"
    assert f"Skill Packing, {age}" in words_of(page(procedure_pages, book, "the-work/lamp/pack.md").html)
    skill = words_of(page(hand_pages, book, "the-hands/skills/packing.md").html)
    assert "Age From 14 years of age to work beside somebody Light work. From 16 years of age to work" in skill


def test_the_shop_and_the_person_tell_it_too(tmp_path: Path) -> None:
    """She is fourteen: beside somebody she may; what she may not she reads with the day."""
    book = book_written(PACKING, tmp_path)
    whole = words_of(page(whole_pages, book, "staying-whole.md").html)
    assert "Under 14 Packing (beside)" in whole
    assert "Under 16 Packing (within call, alone, teaches)" in whole
    lin = words_of(page(hand_pages, book, "the-hands/people/lin.md").html)
    assert "Not before 3 May 2027 packing within call or alone: at least 16 years old." in lin
    assert "beside somebody" not in lin


def test_a_machine_with_two_ages_is_closed_until_the_higher(tmp_path: Path) -> None:
    """The saw asks for 16, its blade for 18: one line, with the day on which she may use it."""
    saw = """\
=== tools/saw.yml
machine: saw
title: Saw
age: min 16 y
hazards: {hazard: blade, word: danger, harm: It cuts., avoid: A stick., age: min 18 y}
"""
    lin = words_of(page(hand_pages, book_written(PACKING + saw, tmp_path), "the-hands/people/lin.md").html)
    assert "Not before 3 May 2029 to use saw: at least 18 years old." in lin
    assert "3 May 2027 to use saw" not in lin
