"""What is asked of the master, and what is not: the edges that the rules' own examples do not show."""

from __future__ import annotations

from pathlib import Path

import pytest
from test_rules import findings_of

from site_builder.checks.rules.questions import RULES
from site_builder.notebook.finding import Finding, Level

GRINDER = "=== tools/machines/belt-grinder.yml\nmachine: belt-grinder\ntitle: Belt grinder\n"
SHOP = "=== procedures/shop.yml\nshop: quay-street\ntitle: The shop in Quay Street\n"
OURS = {rule.code for rule in RULES}


def procedure(id_: str, *lines: str, folder: str = "foot", steps: str = "Sweep it along the belt.") -> str:
    head = f"=== procedures/{folder}/{id_}.yml\nprocedure: {id_}\ntitle: {id_.replace('-', ' ').capitalize()}\n"
    return head + "".join(f"{line}\n" for line in lines) + f"steps: {steps}\n"


def codes(example: str, folder: Path) -> list[str]:
    return [f.code for f in findings_of(example, folder) if f.code in OURS]


def found(code: str, example: str, folder: Path) -> list[Finding]:
    return [f for f in findings_of(example, folder) if f.code == code]


def test_a_first_page_of_title_and_steps_gets_the_questions_a_master_would_start_with(tmp_path: Path) -> None:
    asked = codes(procedure("grind-foot"), tmp_path)
    assert set(asked) == {
        "because-asked", "tools-asked", "materials-asked", "ready-asked", "good-asked", "beginners-asked",
        "hazards-asked", "time-asked", "troubles-asked", "yield-asked",
    }
    assert len(asked) == len(set(asked)), "each is asked once"


def test_ten_steps_do_not_ask_ten_times(tmp_path: Path) -> None:
    steps = "[" + ", ".join(f"Sweep {n}." for n in range(10)) + "]"
    assert len(codes(procedure("grind-foot", steps=steps), tmp_path)) == 10


def test_all_of_them_are_questions() -> None:
    assert {rule.level for rule in RULES} == {Level.QUESTION}


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("tools: []", "tools-asked"),
        ("materials: []", "materials-asked"),
        ("hazards: []", "hazards-asked"),
        ("yield: {scrap: 0 %}", "yield-asked"),
        ("ready: []", "ready-asked"),
    ],
)
def test_nothing_is_an_answer_too(line: str, code: str, tmp_path: Path) -> None:
    assert code not in codes(procedure("grind-foot", line), tmp_path)


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("time: ask", "time-asked"), ("yield:", "yield-asked"), ("because: ask", "because-asked"),
        ("troubles: ask", "troubles-asked"), ("tools:", "tools-asked"),
    ],
)
def test_what_is_written_down_as_unknown_is_not_asked_twice(line: str, code: str, tmp_path: Path) -> None:
    findings = findings_of(procedure("grind-foot", line), tmp_path)
    assert code not in [f.code for f in findings]
    assert "value-ask" in [f.code for f in findings]


def test_what_one_step_tells_answers_for_the_procedure(tmp_path: Path) -> None:
    steps = "\n  - {do: Sweep it., points: Weight over the middle., time: 2 min, until: The grey skin is gone.}"
    asked = codes(procedure("grind-foot", steps=steps), tmp_path)
    assert {"beginners-asked", "time-asked", "good-asked"}.isdisjoint(asked)


def test_why_a_step_is_done_does_not_say_why_the_work_is_done(tmp_path: Path) -> None:
    steps = "\n  - {do: Turn the foot., because: The belt bites harder where the metal runs on.}"
    assert "because-asked" in codes(procedure("grind-foot", steps=steps), tmp_path)


def test_what_is_done_elsewhere_is_not_asked_for_its_tools_and_tricks(tmp_path: Path) -> None:
    asked = codes(procedure("plate-arm", "where: the plater's", folder="arm"), tmp_path)
    assert {"tools-asked", "ready-asked", "beginners-asked", "hazards-asked"}.isdisjoint(asked)
    assert "troubles-asked" in asked, "what comes home wrong is our trouble"


def test_a_shared_step_brings_its_tools_and_hazards_along(tmp_path: Path) -> None:
    dress = procedure("dress-the-belt", "tools: belt-grinder", "settings: {belt speed: 15..20 m/s}", folder="shared",
                      steps="\n  - {do: Hold the stick to it., hazards: {hazard: flying grit, word: warning}}")
    grind = procedure("grind-foot", steps="\n  - use: dress-the-belt\n  - Sweep it along the belt.")
    about = [f.code for f in findings_of(dress + grind + GRINDER, tmp_path) if f.about == "grind-foot"]
    assert {"tools-asked", "hazards-asked", "settings-asked"}.isdisjoint(about)
    assert "troubles-asked" in about, "what goes wrong at the belt is not what goes wrong with the foot"


def test_a_procedure_of_nothing_but_shared_steps_tells_what_they_tell(tmp_path: Path) -> None:
    dress = procedure("dress-the-belt", "troubles: {sign: It clogs., cause: Zinc., do: Dress again.}", folder="shared")
    morning = procedure("start-the-day", steps="\n  - use: dress-the-belt")
    about = [f.code for f in findings_of(dress + morning, tmp_path) if f.about == "start-the-day"]
    assert "troubles-asked" not in about


def test_a_shared_step_is_not_asked_for_its_part_nor_for_its_losses(tmp_path: Path) -> None:
    example = (
        SHOP + "parts: {foot: Foot}\n" + procedure("dress-the-belt", folder="shared")
        + procedure("grind-foot", steps="\n  - use: dress-the-belt\n  - Sweep it.")
    )
    about = [f.code for f in findings_of(example, tmp_path) if f.about == "dress-the-belt"]
    assert {"part-asked", "yield-asked"}.isdisjoint(about)


def test_a_group_of_tools_speaks_for_its_members(tmp_path: Path) -> None:
    example = (
        procedure("grind-foot", "tools: belt-grinder") + GRINDER
        + "=== tools/machines/turning.yml\nmachine: turning\ntitle: All that turns\nmembers: belt-grinder\n"
        + "maker: various\nhazards: {hazard: drawn in, word: warning, avoid: Sleeves up.}\n"
    )
    findings = findings_of(example, tmp_path)
    assert "hazards-asked" not in [f.code for f in findings]
    assert "maker-unsaid" not in [f.code for f in findings]


def test_nothing_is_concluded_from_a_tool_that_could_not_be_read(tmp_path: Path) -> None:
    broken = "=== tools/machines/belt-grinder.yml\nmachine: belt-grinder\ntitle: [Belt\n"
    assert "hazards-asked" not in codes(procedure("grind-foot", "tools: belt-grinder") + broken, tmp_path)


def test_one_beginning_is_enough_for_a_part(tmp_path: Path) -> None:
    example = SHOP + "parts: {foot: Foot}\n" + procedure("cast-foot") + procedure("grind-foot", "after: cast-foot")
    assert "before-asked" not in codes(example, tmp_path)


def test_two_rows_of_work_on_one_part_are_asked_how_they_hang_together(tmp_path: Path) -> None:
    example = (
        SHOP + "parts: {foot: Foot}\n"
        + procedure("cast-foot") + procedure("grind-foot", "after: cast-foot")
        + procedure("fill-foot") + procedure("paint-foot", "after: fill-foot")
    )
    assert [f.about for f in found("before-asked", example, tmp_path)] == ["cast-foot", "fill-foot"]


def test_the_delivery_of_the_metal_may_stand_before_the_first_work(tmp_path: Path) -> None:
    example = (
        SHOP + "parts: {foot: Foot}\n" + procedure("cast-foot", "after: delivery of the metal")
        + procedure("grind-foot", "after: cast-foot") + procedure("fill-foot")
    )
    assert "before-asked" not in codes(example, tmp_path)


WINDOW = "windows: {from the grinder to the paint: {is: max 2 d, after: grind-foot}}"


@pytest.mark.parametrize(("before", "after", "asked"), [
    ("wait: max 2 d", "", False), ("", WINDOW, False), ("", "wait: max 2 d", True),
])
def test_how_long_it_may_stand_is_told_by_either_side(before: str, after: str, asked: bool, tmp_path: Path) -> None:
    example = procedure("grind-foot", before) + procedure("paint-foot", "after: grind-foot", after)
    assert ("stand-asked" in codes(example, tmp_path)) is asked


def test_a_time_that_was_taken_is_not_asked_for(tmp_path: Path) -> None:
    taken = procedure("grind-foot", "time: {each: 5 min, source: measured, date: 2026-03-02}",
                      steps="\n  - {do: Sweep it., time: about 20 s}")
    assert "time-unobserved" not in codes(taken, tmp_path)


@pytest.mark.parametrize(("time", "words"), [
    ("about 5 min", "about 5 min:"),
    ("{each: about 5 min, source: told by edda}", "about 5 min:"),
    ("{load: 40 min, source: memory}", "40 min a load:"),
    ("{lot: 2 h}", "2 h a lot:"),
])
def test_a_time_that_was_only_told(time: str, words: str, tmp_path: Path) -> None:
    [question] = found("time-unobserved", procedure("grind-foot", f"time: {time}"), tmp_path)
    assert words in question.message.replace("\u00a0", " ")


def test_a_sample_for_one_feel_is_enough_for_the_procedure(tmp_path: Path) -> None:
    steps = (
        "\n  - do: Draw the edge.\n    feel:\n"
        "      - {sense: touch, where: the thumb, good: It runs over., with: edge}\n"
        "      - {sense: touch, where: the nail, good: It does not hang.}"
    )
    sample = "=== tools/samples/edge.yml\nsample: edge\ntitle: Good edge\n"
    assert "feel-no-sample" not in codes(procedure("deburr-foot", steps=steps) + sample, tmp_path)


def test_what_an_arm_feels_in_the_tool_needs_no_sample(tmp_path: Path) -> None:
    steps = "\n  - {do: Lay it down., feel: {sense: touch, where: in the arm, good: It goes where the tool goes.}}"
    assert "feel-no-sample" not in codes(procedure("spin-hood", steps=steps), tmp_path)


def test_a_test_in_a_round_needs_no_way_back_of_its_own(tmp_path: Path) -> None:
    steps = (
        "\n  - do: Sweep it.\n    checks: {good: It does not rock., when: each piece}\n"
        "    repeat: {times: about 1; max 3}"
    )
    asked = codes(procedure("grind-foot", steps=steps), tmp_path)
    assert {"fail-wayless", "ended-asked", "loop-most"}.isdisjoint(asked)


@pytest.mark.parametrize(("times", "asked"), [
    ("about 2", True), ("min 2", True), ("3", False), ("about 2; max 5", False), ("1..3", False), ("max 4", False),
])
def test_how_often_at_most(times: str, asked: bool, tmp_path: Path) -> None:
    steps = f"\n  - {{do: Sweep it., repeat: {{until: The grey skin is gone., times: {times}}}}}"
    assert ("loop-most" in codes(procedure("grind-foot", steps=steps), tmp_path)) is asked


def test_a_remedy_that_names_its_trouble_has_its_way_there(tmp_path: Path) -> None:
    example = procedure(
        "grind-foot", "limits: {height: {is: min 32 mm, below: {means: Too low., trouble: low}}}",
        "troubles: {id: low, sign: Too low., cause: Too much was taken off., then: scrap}",
    )
    assert "fail-wayless" not in codes(example, tmp_path)


def test_several_ends_are_named_with_the_work_they_end(tmp_path: Path) -> None:
    steps = "\n  - {do: Let the belt run up., until: {clock: 30 s, count: 10 strokes, sign: It is quiet.}}"
    [question] = found("several-ends", procedure("grind-foot", steps=steps), tmp_path)
    assert question.message == (
        "“Let the belt run up”: over by the clock, the count or the sign, which of them decides?"
    )


def test_what_an_order_or_the_work_itself_decides_is_not_asked(tmp_path: Path) -> None:
    example = (
        SHOP + "variants:\n  pattern: {values: [harbour, deck]}\n  metal: {values: [sound, porous]}\n"
        + "  finish: {values: [gloss, matt]}\n"
        + "=== procedures/orders/spring.yml\norder: spring\ntitle: Spring\nchosen: {pattern: harbour}\n"
        + procedure("sort", steps="\n  - {do: Strike it., finds: {metal: {sound: It rings., porous: It clacks.}}}")
    )
    assert [f.message for f in found("decided-asked", example, tmp_path)] == [
        "Who decides the finish, and when is it decided at the latest?"
    ]


@pytest.mark.parametrize("made", ["maker: home-made, mutton tallow", "maker: Home-made by Josk, 2014"])
def test_what_is_made_in_the_shop_has_no_supplier(made: str, tmp_path: Path) -> None:
    assert "supplier-unsaid" not in codes(f"=== tools/materials/tallow.yml\nmaterial: tallow\ntitle: Tallow\n{made}\n",
                                          tmp_path)


def test_what_a_procedure_makes_has_no_supplier(tmp_path: Path) -> None:
    example = procedure("render-tallow", "makes: tallow", folder="shared")
    example += "=== tools/materials/tallow.yml\nmaterial: tallow\ntitle: Tallow\n"
    assert "supplier-unsaid" not in codes(example, tmp_path)


def test_metal_does_not_go_stale_and_filler_does(tmp_path: Path) -> None:
    example = (
        "=== tools/materials/zinc.yml\nmaterial: zinc\ntitle: Zinc\nproperties: {density: 6 g/cm³}\n"
        "=== tools/materials/filler.yml\nmaterial: filler\ntitle: Filler\nproperties: {pot life: 5 min}\n"
        "=== tools/materials/enamel.yml\nmaterial: enamel\ntitle: Enamel\n"
        "properties: {recoat: min 4 h, shelf life: 36 mo}\n"
    )
    assert [f.about for f in found("life-unsaid", example, tmp_path)] == ["filler"]


def test_a_mould_stands_still_and_has_no_highest_speed(tmp_path: Path) -> None:
    example = (
        procedure("cast-foot", "tools: mould", "settings: {casting temperature: 490..520 °C}")
        + "=== tools/tooling/mould.yml\ntooling: mould\ntitle: Mould\n"
    )
    assert "rated-unsaid" not in codes(example, tmp_path)


def test_an_order_is_asked_for_each_thing_it_does_not_say(tmp_path: Path) -> None:
    example = "=== procedures/orders/spring.yml\norder: spring\ntitle: Spring delivery\npieces: ask\n"
    assert [f.message for f in found("order-unsaid", example, tmp_path)] == [
        "By when must it be there: “Spring delivery”?",
        "For whom is it: “Spring delivery”?",
        "What is delivered: “Spring delivery”?",
    ]


def test_a_noted_question_is_asked_as_it_was_written(tmp_path: Path) -> None:
    example = procedure("grind-foot", "questions: Why is [[belt-grinder]] never oiled?") + GRINDER
    [question] = found("question-noted", example, tmp_path)
    assert question.message == "Why is [[belt-grinder]] never oiled?"
    assert question.about == "grind-foot"
