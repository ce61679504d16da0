"""From a notebook to the reckonings: who counts as able, what a product takes, when who may be taught."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.example import write_example
from site_builder.skills.known import knowledge_of
from site_builder.skills.lessons import Bar, bars, plan
from site_builder.skills.loss import Knowledge, without
from site_builder.skills.recovery import recoveries
from site_builder.skills.schooling import LEARNING, Schooling, schooling_of
from site_builder.skills.teaching import LESSONS, Basis, teaching_of

TODAY = date(2026, 3, 4)  # a Wednesday
H = 60

LAMP = """\
=== procedures/shop.yml
shop: lamps
title: Lamps
products: {lamp: {title: Lamp, of: {foot: 1, post: 2..4, glass: 1}}}
parts: {foot: Foot, post: Post, glass: {title: Glass, supplier: Aldmoor}}
calendar: {days: [Monday, Tuesday, Wednesday, Thursday], closed: 2026-03-16..2026-03-22}
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
skill: casting
time: 8..12 min
materials: brew
steps: Pour it.
=== procedures/post/turn-post.yml
procedure: turn-post
title: Turn the post
time: 4 min
steps: [{use: sharpen}, Turn it.]
=== procedures/post/plate-post.yml
procedure: plate-post
title: Have the post plated
after: turn-post
where: at the plater's
steps: Send it.
=== procedures/lamp/join.yml
procedure: join
title: Join foot and posts
part: [foot, post]
makes: lamp
skill: joining
after: [cast-foot, turn-post]
steps: Join them.
=== procedures/shared/sharpen.yml
procedure: sharpen
title: Sharpen the tool
skill: sharpening
steps: Hone it.
=== procedures/shared/brew.yml
procedure: brew-it
title: Brew the metal
makes: brew
skill: brewing
steps: Stir it.
=== tools/materials/brew.yml
material: brew
title: Brew
=== skills/casting.yml
skill: casting
title: Casting
needs: {skill: brewing, level: within call}
age: min 18 y
lessons: 50 h
refresh: 12 mo
=== skills/turning.yml
skill: turning
title: Turning
covers: turn-post
=== skills/joining.yml
skill: joining
title: Joining
=== skills/sharpening.yml
skill: sharpening
title: Sharpening
=== skills/brewing.yml
skill: brewing
title: Brewing
questions: How warm is warm?
checklist: Stirs it.
=== skills/people.yml
people:
  ada: {name: Ada, born: 1960, hours: 30 h/week, founding: true}
  bo: {name: Bo, born: 2008, hours: 20 h/week, learning: 8 h/week}
  cy: {name: Cy}
  old: {name: Old Ada, left: 2001, founding: true}
  ole: {name: Ole, left: 2001, founding: true}
=== skills/records/practice.yml
---
practice: 1
who: ada
date: 2025-11-01
procedure: cast-foot
---
practice: 2
who: old
date: 1999-01-01
procedure: cast-foot
=== skills/records/sign-offs.yml
---
sign-off: 1
who: old
date: 1999-01-01
learner: ada
skill: casting
level: teaches
---
sign-off: 2
who: ada
date: 2020-01-01
learner: cy
skill: casting
level: alone
---
sign-off: 3
who: ole
date: 2000-01-01
learner: old
skill: brewing
level: teaches
---
sign-off: 4
who: ada
date: 2026-01-01
learner: bo
skill: brewing
level: beside
---
sign-off: 5
who: ada
date: 2026-01-02
learner: bo
skill: turning
level: alone
"""


@pytest.fixture
def lamps(tmp_path: Path) -> Analysis:
    write_example(LAMP, tmp_path)
    return analysis(tmp_path, TODAY)


@pytest.fixture
def known(lamps: Analysis) -> Knowledge:
    return knowledge_of(lamps.notebook, lamps.route, lamps.holders)


@pytest.fixture
def school(lamps: Analysis, known: Knowledge) -> Schooling:
    return schooling_of(known, lamps.holders, lamps.law.ages, teaching_of(lamps.law.evidence, TODAY))


def test_a_sign_off_that_rests_counts_for_nothing_and_is_remembered(known: Knowledge) -> None:
    """Cy was signed in 2020 and never practised: after twelve months it rests."""
    assert known.able["casting"] == {"ada"}
    assert known.resting["casting"] == {"cy"}


def test_the_founder_is_the_master_of_what_nobody_was_ever_signed_to_teach(known: Knowledge) -> None:
    assert known.teachers["turning"] == {"ada"}
    assert known.able["turning"] == {"ada", "bo"}
    # brewing was taught by somebody who has left: that line has ended
    assert known.teachers["brewing"] == frozenset()
    assert known.able["brewing"] == frozenset()


def test_who_covers_a_procedure_that_names_no_skill_can_do_it(known: Knowledge) -> None:
    assert known.hands["turn-post"] == {"ada", "bo"}


def test_hours_of_a_whole_lamp(known: Knowledge) -> None:
    """A foot of 8 to 12 minutes, and two to four posts of 4: in the middle 10 and 12."""
    assert known.seconds["lamp"] == {"cast-foot": Fraction(600), "turn-post": Fraction(720)}
    assert known.untold["lamp"] == ("join",)
    assert known.products["lamp"] == {"lamp", "foot", "post", "glass"}


def test_work_done_outside_is_nobodys_knowledge_here(known: Knowledge) -> None:
    assert "plate-post" not in known.works
    assert known.ways["post"] == ("turn-post",)


def test_what_leans_on_a_mix_and_on_a_shared_step_waits_for_it(known: Knowledge) -> None:
    assert without(known, []).nobody == ("brew-it",)
    assert without(known, []).held_up == ("cast-foot",)
    assert without(known, ["ada"]).nobody == ("cast-foot", "join", "sharpen")
    assert without(known, ["ada"]).held_up == ("turn-post",)


def test_weeks_begin_on_monday_and_hold_what_is_told(school: Schooling) -> None:
    """Bo tells his hours for lessons; of Ada's thirty a fifth is taken; nobody knows Cy's."""
    assert school.monday == date(2026, 3, 9)
    assert [school.school.room[who][0] for who in ("ada", "bo", "cy")] == [6 * H, 8 * H, LEARNING]
    assert school.unplanned == ("ada",)
    assert school.unhoured == ("cy",)
    # the week after is closed from Monday to Sunday
    assert school.school.room["ada"][1] == 0
    # four working days: what is planned for a week is done by Thursday
    assert school.day(0) == date(2026, 3, 12)


def test_hours_of_teaching_are_those_told_or_assumed(school: Schooling) -> None:
    assert school.school.subjects["casting"].minutes == 50 * H
    assert school.school.subjects["turning"].minutes == LESSONS
    assert [id_ for id_, one in school.teaching.items() if one.basis is Basis.ASSUMED] == [
        "brewing", "joining", "sharpening", "turning"]


def test_levels_that_count_for_lessons(school: Schooling) -> None:
    ranks = {(who, skill): school.school.rank(who, skill) for who, skill in (
        ("ada", "casting"), ("cy", "casting"), ("bo", "brewing"), ("bo", "turning"), ("cy", "turning"))}
    assert ranks == {("ada", "casting"): 5, ("cy", "casting"): 3, ("bo", "brewing"): 2, ("bo", "turning"): 4,
                     ("cy", "turning"): 0}


def test_a_year_of_birth_counts_to_its_end_and_none_is_never_old_enough(school: Schooling) -> None:
    """Bo, born in 2008, is surely eighteen on 31 December 2026: in the 43rd week from 9 March."""
    assert (date(2026, 12, 31) - school.monday).days == 297
    assert school.school.not_before["bo", "casting", 2] == 43
    assert school.school.not_before["cy", "casting", 2] is None


def test_the_riskiest_is_what_most_hours_ask_for(school: Schooling) -> None:
    """Turning and sharpening stand behind 12 minutes of 22, casting behind 10, and behind the brew."""
    assert school.school.order == ("sharpening", "turning", "brewing", "casting", "joining")


def test_what_cannot_be_planned_says_why(school: Schooling) -> None:
    made = plan(school.school)
    assert {goal.skill for goal in made.goals if goal.week is None} == {"brewing", "casting"}
    assert bars(school.school, "casting") == {"bo": Bar.NEED_NO_TEACHER, "cy": Bar.NEED_NO_TEACHER}
    assert set(bars(school.school, "brewing").values()) == {Bar.NO_TEACHER}


def test_a_skill_without_a_teacher_is_a_task_with_what_is_written(lamps: Analysis, known: Knowledge) -> None:
    (task,) = recoveries(lamps.references, lamps.told, known)
    assert task.skill == "brewing"
    assert [(one.procedure, one.steps) for one in task.written] == [("brew-it", 1)]
    assert "what good and bad feel like" in task.written[0].untold
    assert [str(question) for question in task.questions] == ["How warm is warm?"]
    assert task.items == 1


@pytest.mark.parametrize(("told", "wanted"), [("", 2), ("holders: 3\n", 3), ("holders: ask\n", 2)])
def test_the_shop_says_how_many_should_hold_each_skill(told: str, wanted: int, tmp_path: Path) -> None:
    write_example(f"=== procedures/shop.yml\nshop: s\ntitle: S\n{told}", tmp_path)
    small = analysis(tmp_path, TODAY)
    known = knowledge_of(small.notebook, small.route, small.holders)
    teaching = teaching_of(small.law.evidence, TODAY)
    assert schooling_of(known, small.holders, small.law.ages, teaching).school.wanted == wanted


def test_where_no_skill_names_a_procedure_nothing_is_said(tmp_path: Path) -> None:
    write_example("=== procedures/cut.yml\nprocedure: cut\ntitle: Cut\nsteps: Cut it.\n", tmp_path)
    small = analysis(tmp_path, TODAY)
    known = knowledge_of(small.notebook, small.route, small.holders)
    assert known.unasked == ("cut",)
    assert without(known, []).nothing
