"""Who does the work: the edges of the rules that their own two examples do not show."""

from __future__ import annotations

from datetime import date
from fractions import Fraction
from pathlib import Path

import pytest
from test_rules import findings_of

from site_builder.notebook.finding import Finding
from site_builder.notebook.spans import day_after, longest_span
from site_builder.quantity import parse_value


def found(code: str, example: str, folder: Path) -> list[Finding]:
    return [finding for finding in findings_of(example, folder) if finding.code == code]


def sign_offs(*entries: str) -> str:
    """A book of sign-offs by Edda; each entry is `person, skill, level`, as of midsummer 2026."""
    book = "=== skills/records/sign-offs.yml\n"
    for number, entry in enumerate(entries, 1):
        learner, skill, level = entry.split(", ")
        book += f"---\nsign-off: {number}\nwho: edda\ndate: 2026-06-19\n"
        book += f"learner: {learner}\nskill: {skill}\nlevel: {level}\n"
    return book


def skill(id_: str, *lines: str) -> str:
    return f"=== skills/{id_}.yml\n" + "\n".join((f"skill: {id_}", f"title: {id_.title()}", *lines)) + "\n"


def people(*lines: str) -> str:
    edda = "edda: {name: Edda, founding: yes}"
    return "=== skills/people.yml\npeople:\n" + "".join(f"  {line}\n" for line in (edda, *lines))


# --- ages -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("born", "age", "level", "young"),
    [
        ("2010-06-19", "min 16 y", "beside", False),  # sixteen on the day itself
        ("2010-06-20", "min 16 y", "beside", True),
        ("2009", "min 16 y", "beside", False),  # even if born on the last of December
        ("2010", "min 16 y", "beside", True),  # perhaps; who is perhaps too young is not taken for old enough
        ("2010-06-20", "min 16 y", "watches", False),  # looking on is not working
        ("2010-06-20", "16 y", "beside", True),
        ("2010-06-20", "ask", "beside", False),
        ("2010-06-20", "{is: min 16 y, for: {level: alone}}", "beside", False),
        ("2010-06-20", "{is: min 16 y, for: {level: alone}}", "alone", True),
        ("2010-06-20", "{is: {alone: min 18 y, beside: min 14 y}, by: level}", "beside", False),
        ("2010-06-20", "{is: {alone: min 18 y, beside: min 14 y}, by: level}", "alone", True),
    ],
)
def test_who_is_too_young(born: str, age: str, level: str, young: bool, tmp_path: Path) -> None:
    example = (
        skill("grinding", f"age: {age}")
        + people(f"ansa: {{name: Ansa, born: {born}}}")
        + sign_offs(f"ansa, grinding, {level}")
    )
    assert bool(found("too-young", example, tmp_path)) is young


WORK_ON_THE_LATHE = """\
=== tools/machines/lathe.yml
machine: lathe
title: Lathe
age: min 18 y
=== procedures/hood/spin-hood.yml
procedure: spin-hood
title: Spin the hood
skill: spinning
tools: lathe
steps: Spin it.
"""
BY_HAND = """\
=== procedures/hood/trim-hood.yml
procedure: trim-hood
title: Trim the hood
skill: spinning
steps: Trim it with the shears.
"""


def test_the_age_of_a_machine_holds_for_the_skill_all_of_whose_work_needs_it(tmp_path: Path) -> None:
    held = skill("spinning") + people("ansa: {name: Ansa, born: 2010}") + sign_offs("ansa, spinning, beside")
    one = found("too-young", held + WORK_ON_THE_LATHE, tmp_path / "lathe")
    assert "Lathe asks for min 18 y" in one[0].message
    assert not found("too-young", held + WORK_ON_THE_LATHE + BY_HAND, tmp_path / "both")


def test_months_go_by_the_calendar_and_days_by_the_day() -> None:
    year = longest_span(parse_value("12 mo"))
    assert year is not None
    assert day_after(date(2026, 3, 10), year) == date(2027, 3, 10)
    assert day_after(date(2028, 2, 29), year) == date(2029, 2, 28)
    assert day_after(date(2026, 1, 31), year / 12) == date(2026, 2, 28)
    days = longest_span(parse_value("max 60 d"))
    assert days is not None
    assert day_after(date(2026, 11, 24), days) == date(2027, 1, 23)
    assert day_after(date(9999, 1, 1), Fraction(10**15)) == date.max


# --- holders --------------------------------------------------------------------------------------------


def test_a_shop_that_has_not_begun_its_book_is_not_told_that_nobody_can_do_anything(tmp_path: Path) -> None:
    assert not found("nobody-holds", skill("filing") + people("josk: Josk"), tmp_path)


def test_who_has_left_holds_nothing_any_more(tmp_path: Path) -> None:
    example = (
        skill("filing")
        + people("josk: {name: Josk, left: 2026-08}", "tilde: Tilde")
        + sign_offs("josk, filing, alone", "tilde, filing, within call")
    )
    (one,) = found("nobody-holds", example, tmp_path)
    assert "Tilde comes nearest: `within call`" in one.message


def test_the_only_one_and_the_learner_behind_are_named(tmp_path: Path) -> None:
    example = (
        skill("filing") + people("josk: Josk Corvane", "ansa: Ansa")
        + sign_offs("josk, filing, teaches", "ansa, filing, beside")
    )
    (one,) = found("one-holds", example, tmp_path)
    assert "If Josk Corvane left tomorrow" in one.message
    assert "Ansa is `beside`" in one.message


def test_a_living_founder_who_can_do_it_may_teach_it(tmp_path: Path) -> None:
    example = (
        skill("filing") + people("havel: {name: Havel, founding: yes}") + sign_offs("havel, filing, alone")
    )
    assert not found("teacher-none", example, tmp_path)


def test_a_circle_of_three_is_told_once_and_by_name(tmp_path: Path) -> None:
    example = (
        skill("casting", "needs: melting")
        + skill("melting", "needs: pouring")
        + skill("pouring", "needs: casting")
        + skill("fettling", "needs: [casting, fettling]")
    )
    (one,) = found("needs-circle", example, tmp_path)
    assert "“Melting”, then “Pouring”, then “Casting”" in one.message
    assert [f.about for f in found("skill-self", example, tmp_path)] == ["fettling"]


def test_a_long_row_of_skills_is_no_circle(tmp_path: Path) -> None:
    row = "".join(skill(f"s{n}", f"needs: s{n + 1}") for n in range(1200)) + skill("s1200")
    codes = {finding.code for finding in findings_of(row, tmp_path)}
    assert not codes & {"needs-circle", "rule-crashed"}


def test_a_skill_that_others_need_is_good_for_something(tmp_path: Path) -> None:
    example = skill("lifting") + skill("casting", "needs: lifting", "covers: cast-foot")
    assert not found("skill-uncovering", example, tmp_path)


def test_shared_steps_need_no_skill_of_their_own_where_the_work_around_them_has_one(tmp_path: Path) -> None:
    shared = "=== procedures/shared/wipe.yml\nprocedure: wipe\ntitle: Wipe it\nsteps: Wipe it.\n"
    using = (
        "=== procedures/foot/prime-foot.yml\nprocedure: prime-foot\ntitle: Prime the foot\nskill: spraying\n"
        "steps: [{use: wipe}, Spray it.]\n"
    )
    assert [f.about for f in found("procedure-skillless", shared, tmp_path / "alone")] == ["wipe"]
    assert not found("procedure-skillless", shared + using, tmp_path / "used")


def test_nobody_here_needs_the_skill_for_work_that_is_given_out(tmp_path: Path) -> None:
    example = (
        "=== procedures/arm/plate-arm.yml\nprocedure: plate-arm\ntitle: Have the arm plated\n"
        "where: the plater's\nsteps: Take them there.\n"
    )
    assert not found("procedure-skillless", example, tmp_path)


# --- papers ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("paper", "codes"),
    [
        ("{paper: Mask fit test, date: 2026-01-24}", []),  # ends in 61 days
        ("{paper: Mask fit test, date: 2026-01-23}", ["paper-lapsing"]),  # ends in 60
        ("{paper: Mask fit test, date: 2025-11-24}", ["paper-lapsing"]),  # ends today
        ("{paper: mask fit test, date: 2025-11-23}", ["paper-lapsed"]),
        ("[{paper: Mask fit test, date: 2024-11-01}, {paper: Mask fit test, date: 2026-11}]", []),  # renewed
        ("{paper: Mask fit test}", ["paper-unsaid"]),  # no date, nothing to reckon from
        ("{paper: First aid, date: 2026-01-24}", ["paper-unsaid"]),
        ("ask", []),  # asked already
        ("{paper: First aid, valid: 24 mo, date: 2020}", ["paper-unsaid", "paper-lapsing"]),  # none rests without it
    ],
)
def test_when_a_paper_ends(paper: str, codes: list[str], tmp_path: Path) -> None:
    example = (
        skill("spraying", "papers: {paper: Mask fit test, valid: 12 mo}")
        + people(f"tilde: {{name: Tilde, papers: {paper}}}")
        + sign_offs("tilde, spraying, alone")
    )
    assert [f.code for f in findings_of(example, tmp_path) if f.code.startswith("paper-")] == codes


def test_who_only_watches_needs_no_paper_yet(tmp_path: Path) -> None:
    example = (
        skill("spraying", "papers: Mask fit test") + people("tilde: Tilde") + sign_offs("tilde, spraying, watches")
    )
    assert not found("paper-unsaid", example, tmp_path)


# --- hands ----------------------------------------------------------------------------------------------


def casting(hands: str) -> str:
    return (
        "=== procedures/foot/cast-foot.yml\nprocedure: cast-foot\ntitle: Cast the foot\nskill: casting\n"
        f"hands: {hands}\nsteps: Pour it.\n"
    )


@pytest.mark.parametrize(
    ("hands", "short"),
    [
        ("2", False),  # Josk, and Ansa who learns it beside him
        ("3", True),
        ("2..3", False),
        ("{roles: {pourer: {skill: casting}, tilter: {does: Tilts.}}}", False),
        ("{roles: {pourer: {skill: casting}, skimmer: {skill: melting}}}", False),  # Ansa pours, Josk skims
        ("{roles: {skimmer: {skill: melting}, keeper: {skill: melting}}}", True),  # only Josk can melt
        ("{count: 3, roles: {pourer: {skill: casting}}}", False),  # two more, whoever they are
    ],
)
def test_whether_there_are_hands_enough(hands: str, short: bool, tmp_path: Path) -> None:
    example = (
        casting(hands) + people("josk: Josk", "ansa: Ansa")
        + sign_offs("josk, casting, alone", "ansa, casting, beside", "josk, melting, alone")
    )
    assert bool(found("hands-short", example, tmp_path)) is short


def test_work_at_the_platers_is_done_by_his_people(tmp_path: Path) -> None:
    example = casting("4").replace("skill: casting", "where: the plater's") + people()
    assert not found("hands-short", example, tmp_path)


# --- who ------------------------------------------------------------------------------------------------


def test_another_cannot_look_where_only_one_can_do_it(tmp_path: Path) -> None:
    work = (
        "=== procedures/foot/prime-foot.yml\nprocedure: prime-foot\ntitle: Prime the foot\nskill: spraying\n"
        "checks: {good: No run., who: another}\n"
        "steps:\n  - {do: Spray it., feel: {good: Dry to the finger., who: another}}\n"
    )
    who = people("tilde: Tilde", "benno: Benno")
    alone = found("inspector-alone", work + who + sign_offs("tilde, spraying, alone"), tmp_path / "one")
    assert [f.at.line for f in alone] == [4]  # once a procedure, at the first look
    assert "only Tilde can do this work" in alone[0].message
    two = sign_offs("tilde, spraying, alone", "benno, spraying, alone")
    assert not found("inspector-alone", work + who + two, tmp_path / "two")


@pytest.mark.parametrize(
    ("who", "known"),
    [
        ("tilde", True),
        ("another", True),
        ("pourer", True),  # a role of the hands
        ("finisher", True),  # what Tilde is in the shop
        ("the plater", True),  # words
        ("tidle", False),
        ("plater", False),
    ],
)
def test_who_may_be_named(who: str, known: bool, tmp_path: Path) -> None:
    example = casting("{roles: {pourer: Holds the ladle.}}")
    example += f"checks: {{good: No cold shut., who: {who}}}\n"
    example += people("tilde: {name: Tilde, role: finisher and sprayer}")
    assert bool(found("who-unknown", example, tmp_path)) is not known


def test_names_are_not_judged_in_a_shop_that_has_not_listed_its_people(tmp_path: Path) -> None:
    example = casting("1") + "revisions: {date: 2024-02-11, who: greta, what: Two wedges instead of one.}\n"
    assert not found("who-unknown", example, tmp_path)
