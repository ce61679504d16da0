"""Whom to ask what: by who teaches it, the oldest first, what nobody else can do before all."""

from __future__ import annotations

from pathlib import Path

import pytest
from test_rules import TODAY

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine
from site_builder.checks.example import write_example
from site_builder.checks.interview import Sitting, interview
from site_builder.notebook.finding import Level


def held(*entries: str) -> str:
    """A book of sign-offs by Havel, while he was here; each entry is `person, skill, level`."""
    book = "=== skills/records/sign-offs.yml\n"
    for number, entry in enumerate(entries, 1):
        learner, skill, level = entry.split(", ")
        book += f"---\nsign-off: {number}\nwho: havel\ndate: 1993-06-19\n"
        book += f"learner: {learner}\nskill: {skill}\nlevel: {level}\n"
    return book


PEOPLE = """\
=== skills/people.yml
people:
  tilde: {name: Tilde Marrash, born: 1984}
  edda: {name: Edda Corvane, born: 1958, founding: true}
  havel: {name: Havel Corvane, born: 1919, left: 1994, founding: true}
"""
WORK = """\
=== procedures/foot/file-foot.yml
procedure: file-foot
title: File the foot
skill: filing
steps: File along the seam.
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
skill: grinding
tools: belt-grinder
steps: Sweep it along the belt.
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
skill: painting
steps: Spray it.
=== skills/filing.yml
skill: filing
title: Filing
=== skills/grinding.yml
skill: grinding
title: Grinding
=== skills/painting.yml
skill: painting
title: Painting
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
"""
BOOK = held(
    "edda, filing, teaches", "tilde, filing, alone", "edda, grinding, teaches", "tilde, painting, teaches",
    "edda, painting, alone",
)


def sittings(example: str, folder: Path) -> dict[str, Sitting]:
    write_example(example, folder)
    surveyed = analysis(folder, TODAY)
    return {sitting.about: sitting for sitting in interview(surveyed, examine(surveyed))}


def test_who_teaches_the_work_is_asked_about_it(tmp_path: Path) -> None:
    found = sittings(PEOPLE + WORK + BOOK, tmp_path)
    assert found["grind-foot"].who == ("edda",)
    assert found["paint-foot"].who == ("tilde",)
    assert found["painting"].who == ("tilde",), "and about the skill itself"


def test_who_teaches_the_work_is_asked_about_its_machine(tmp_path: Path) -> None:
    found = sittings(PEOPLE + WORK.replace("skill: grinding\ntools", "skill: painting\ntools") + BOOK, tmp_path)
    assert found["belt-grinder"].who == ("tilde",)


def test_a_machine_that_asks_for_a_skill_of_its_own_goes_by_that(tmp_path: Path) -> None:
    found = sittings(PEOPLE + WORK + "skill: painting\n" + BOOK, tmp_path)
    assert found["belt-grinder"].who == ("tilde",)


def test_where_nobody_teaches_it_the_living_founder_is_asked(tmp_path: Path) -> None:
    assert sittings(PEOPLE + WORK, tmp_path)["paint-foot"].who == ("edda",)


def test_without_a_founder_the_oldest_in_the_shop_is_asked(tmp_path: Path) -> None:
    example = PEOPLE.replace(", founding: true", "") + WORK
    assert sittings(example, tmp_path)["paint-foot"].who == ("edda",)


def test_without_people_there_is_nobody_to_name(tmp_path: Path) -> None:
    assert {sitting.who for sitting in sittings(WORK, tmp_path).values()} == {()}


def test_the_oldest_comes_first_with_what_nobody_else_can_do_before_the_rest(tmp_path: Path) -> None:
    order = [s.about for s in sittings(PEOPLE + WORK + BOOK, tmp_path).values()]
    assert order.index("grind-foot") < order.index("file-foot"), "only Edda grinds; Tilde files too"
    assert order.index("file-foot") < order.index("paint-foot"), "Edda is older than Tilde"


def test_what_a_younger_one_can_tell_as_well_may_wait(tmp_path: Path) -> None:
    both = BOOK.replace("learner: tilde\nskill: filing\nlevel: alone", "learner: tilde\nskill: filing\nlevel: teaches")
    found = sittings(PEOPLE + WORK + both, tmp_path)
    order = list(found)
    assert found["file-foot"].who == ("tilde", "edda")
    assert order.index("grind-foot") < order.index("file-foot")


def test_those_of_the_same_people_stand_together(tmp_path: Path) -> None:
    who = [s.who for s in sittings(PEOPLE + WORK + BOOK, tmp_path).values()]
    changes = [one for one, other in zip(who, (None, *who), strict=False) if one != other]
    assert len(changes) == len(set(changes))


def test_all_questions_are_there_once_and_nothing_else(tmp_path: Path) -> None:
    write_example(PEOPLE + WORK + BOOK, tmp_path)
    surveyed = analysis(tmp_path, TODAY)
    findings = examine(surveyed)
    asked = [(q.at, q.code, q.text) for s in interview(surveyed, findings) for q in s.questions]
    assert sorted(asked) == sorted((f.at, f.code, f.message) for f in findings if f.level is Level.QUESTION)


def test_the_order_is_the_same_at_every_run(tmp_path: Path) -> None:
    example = PEOPLE + WORK + BOOK
    assert list(sittings(example, tmp_path / "a").values()) == list(sittings(example, tmp_path / "b").values())


def test_only_work_gets_probes(tmp_path: Path) -> None:
    found = sittings(PEOPLE + WORK + BOOK, tmp_path)
    assert 8 <= len(found["grind-foot"].probes) <= 12
    assert found["belt-grinder"].probes == ()


def test_a_disputed_value_carries_what_each_of_them_said(tmp_path: Path) -> None:
    example = PEOPLE + """\
=== tools/materials/primer.yml
material: primer
title: Primer
properties:
  pot life:
    said: [{is: 6 h, who: edda}, {is: max 4 h, who: tilde}]
"""
    [question] = [q for q in sittings(example, tmp_path)["primer"].questions if q.code == "value-disputed"]
    assert question.said == (("edda", "6\u00a0h"), ("tilde", "at most 4\u00a0h"))
    assert question.why


@pytest.mark.parametrize(("line", "has_reason"), [("questions: How soon must it be filled?", False), ("", True)])
def test_a_question_of_our_own_says_why_it_is_asked(line: str, has_reason: bool, tmp_path: Path) -> None:
    example = PEOPLE + WORK.replace("steps: Spray it.", f"steps: Spray it.\n{line}")
    code = "time-asked" if has_reason else "question-noted"
    [question] = [q for q in sittings(example, tmp_path)["paint-foot"].questions if q.code == code]
    assert bool(question.why) is has_reason
