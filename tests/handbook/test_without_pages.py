"""What would be lost with us, and what to learn next: in a shop of three lamp makers."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from expectation import book_written, expect, page
from markupsafe import Markup

from site_builder.handbook.pages.lessons import hours
from site_builder.handbook.pages.the_hands import hand_pages
from site_builder.handbook.pages.without import percent
from site_builder.handbook.site import HANDS, LESSONS, WITHOUT, Site

SHOP = """\
=== procedures/shop.yml
shop: lamps
title: Lamps
products: {lamp: {title: Lamp, of: {foot: 1}}}
parts: {foot: Foot}
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
skill: casting
time: 9 min
steps: Pour it.
=== procedures/foot/file-foot.yml
procedure: file-foot
title: File the foot
skill: filing
after: cast-foot
time: 3 min
steps: File it.
=== procedures/foot/gild-foot.yml
procedure: gild-foot
title: Gild the foot
skill: gilding
after: file-foot
steps: Lay the leaf on.
questions: How many breaths is the size left?
=== skills/casting.yml
skill: casting
title: Casting
age: min 18 y
lessons: 30 h
=== skills/filing.yml
skill: filing
title: Filing
lessons: 10 h
=== skills/gilding.yml
skill: gilding
title: Gilding
=== skills/people.yml
people:
  ada: {name: Ada Ost, learning: 3 h/week, founding: true}
  bo: {name: Bo Vik, born: 1990, learning: 3 h/week}
  cy: {name: Cy Tarn, born: 2012-06-01, learning: 2 h/week}
  old: {name: Old Hand, left: 2020}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: ada
date: 2000-01-01
learner: bo
skill: filing
level: alone
---
sign-off: 2
who: ada
date: 2000-01-01
learner: old
skill: gilding
level: teaches
"""


@pytest.fixture
def lamps(tmp_path: Path) -> Site:
    return book_written(SHOP, tmp_path)


def words(site: Site, src_uri: str) -> str:
    return Markup(page(hand_pages, site, src_uri).html).striptags().replace("\u00a0", " ")


@pytest.mark.parametrize(("src_uri", "name"), [(WITHOUT, "without"), (LESSONS, "next-lessons")])
def test_the_page_as_it_was_found_good(lamps: Site, src_uri: str, name: str) -> None:
    expect(page(hand_pages, lamps, src_uri), name)


def test_the_hands_lead_to_both_pages(lamps: Site) -> None:
    html = page(hand_pages, lamps, HANDS).html
    assert 'href="without.html"' in html
    assert 'href="next-lessons.html"' in html


def test_with_ada_three_quarters_of_the_hours_stand_still(lamps: Site) -> None:
    told = words(lamps, WITHOUT)
    assert "Left undone Cast the foot" in told
    assert ("Hours in one lamp 75 % have nobody to do them; the time of one of its procedures is not told") in told
    assert "Without Bo nothing would stop" in told
    assert "Cy does nothing alone yet" in told


def test_what_only_two_hold_between_them(lamps: Site) -> None:
    assert "Ada Ost and Bo Vik Left undone File the foot Hours in one lamp 25 %" in words(lamps, WITHOUT)


def test_what_is_missing_already_is_not_charged_to_anybody(lamps: Site) -> None:
    told = words(lamps, WITHOUT)
    assert "Left undone Gild the foot" in told[told.index("What is missing already"):]
    assert "gild" not in told[: told.index("What is missing already")]


def test_bo_learns_casting_for_cy_is_too_young(lamps: Site) -> None:
    """Thirty hours at three a week, from Monday 2 March 2026: ten weeks, to Friday 8 May."""
    assert "Casting: Bo from Ada 30 h of lessons, from 2 March 2026 to 8 May 2026; then alone." in words(
        lamps, LESSONS)


def test_a_skill_without_a_teacher_is_to_be_found_anew(lamps: Site) -> None:
    told = words(lamps, LESSONS)
    assert "Gilding Ada, Bo and Cy: nobody here may teach it." in told
    assert "Written: gild the foot, one step and one open question." in told
    assert "what good and bad feel like" in told[told.index("To be found anew at the bench"):]


def test_the_law_on_the_work_of_children_comes_first(lamps: Site) -> None:
    told = words(lamps, LESSONS)
    assert told.index("children and young people, comes first") < told.index("In this order")


def test_a_shop_where_nothing_is_due_says_so(tmp_path: Path) -> None:
    two = book_written(
        "=== skills/people.yml\npeople: {a: {name: Ann, founding: true}, b: {name: Bo, founding: true}}\n"
        "=== skills/sawing.yml\nskill: sawing\ntitle: Sawing\n", tmp_path)
    assert "Every skill is in at least two pairs of hands. No lesson is due." in words(two, LESSONS)
    assert "Nothing hangs on one pair of hands" in words(two, WITHOUT)


def test_a_shop_without_skills_gets_pages_that_say_so(tmp_path: Path) -> None:
    empty = book_written("=== procedures/shop.yml\nshop: s\ntitle: S\n", tmp_path)
    assert "No skill is written down yet" in words(empty, WITHOUT)
    assert "No skill is written down yet" in words(empty, LESSONS)


@pytest.mark.parametrize(("share", "said"), [
    (Fraction(0), "0 %"), (Fraction(1, 1000), "less than 1 %"), (Fraction(24, 100), "24 %"),
    (Fraction(999, 1000), "more than 99 %"), (Fraction(1), "all"), (None, "an unknown share"),
])
def test_shares_as_people_say_them(share: Fraction | None, said: str) -> None:
    assert percent(share).replace("\u00a0", " ") == said


@pytest.mark.parametrize(("minutes", "said"), [(40, "40 min"), (60, "1 h"), (90, "1.5 h"), (2400, "40 h")])
def test_hours_of_lessons(minutes: int, said: str) -> None:
    assert hours(minutes).replace("\u00a0", " ") == said
