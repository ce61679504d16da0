"""The route of the work: the edges of the rules that their own two examples do not show."""

from __future__ import annotations

from pathlib import Path

import pytest
from test_rules import findings_of

from site_builder.notebook.circles import circles
from site_builder.notebook.conditions import exclude
from site_builder.notebook.finding import Finding
from site_builder.notebook.tree import Text


def found(code: str, example: str, folder: Path) -> list[Finding]:
    """The findings of one rule; a rule that crashed is never passed over."""
    findings = findings_of(example, folder)
    assert [f.message for f in findings if f.code == "rule-crashed"] == []
    return [f for f in findings if f.code == code]


def procedure(id_: str, *lines: str, folder: str = "foot", steps: str = "steps: [Begin., End.]") -> str:
    head = f"=== procedures/{folder}/{id_}.yml\nprocedure: {id_}\ntitle: {id_.replace('-', ' ').capitalize()}\n"
    return head + "\n".join((*lines, steps)) + "\n"


def shop(*lines: str) -> str:
    return "=== procedures/shop.yml\nshop: quay-street\ntitle: The shop in Quay Street\n" + "\n".join(lines) + "\n"


# --- orders ---------------------------------------------------------------------------------------------


def test_a_circle_of_three_is_told_once_where_it_closes(tmp_path: Path) -> None:
    example = (
        procedure("cast", "after: paint") + procedure("grind", "after: cast") + procedure("paint", "after: grind")
    )
    (one,) = found("order-circle", example, tmp_path)
    assert "“Cast”, which waits for “Paint”, which waits for “Grind”, which waits for “Cast”" in one.message
    assert one.at.path == "procedures/foot/grind.yml"


def test_two_procedures_may_go_hand_in_hand(tmp_path: Path) -> None:
    melting = procedure("melt", steps="steps: [{id: heat, do: Heat it.}, {id: drain, do: Drain it., after: cast}]")
    assert not found("order-circle", melting + procedure("cast", "after: melt/heat"), tmp_path / "hand-in-hand")
    assert found("order-circle", melting + procedure("cast", "after: melt/drain"), tmp_path / "drained")
    assert found("order-circle", melting + procedure("cast", "after: melt"), tmp_path / "whole")


def test_nothing_waits_for_itself(tmp_path: Path) -> None:
    (one,) = found("order-circle", procedure("cast", "after: cast"), tmp_path)
    assert "“Cast” waits for itself" in one.message


def test_the_upkeep_of_a_tool_may_come_after_work(tmp_path: Path) -> None:
    belt = "=== tools/belt.yml\ntooling: belt\ntitle: Belt\nupkeep: {do: Hang it up., after: grind, when: each day}\n"
    assert not found("order-circle", belt + procedure("grind", "tools: belt"), tmp_path)


def test_a_procedure_that_uses_itself_is_a_circle(tmp_path: Path) -> None:
    assert len(found("use-circle", procedure("grind", steps="steps: [{use: grind}, Sweep it.]"), tmp_path)) == 1


@pytest.mark.parametrize(
    ("clamp", "codes"),
    [
        ("do: Set the clamp.", ["step-unreached"]),  # comes after the step above, as all steps do
        ("do: Set the clamp., after: glue", ["step-order-circle"]),
        ("do: Set the clamp., after: delivery of the clamp", []),  # an order of its own
        ("do: Set the clamp., when: every 3 pieces", []),
    ],
)
def test_a_step_that_waits_for_one_below_it(clamp: str, codes: list[str], tmp_path: Path) -> None:
    example = procedure("join", steps=f"steps: [{{id: glue, do: Glue it., after: clamp}}, {{id: clamp, {clamp}}}]")
    findings = findings_of(example, tmp_path)
    assert [f.code for f in findings if f.code.startswith("step-")] == codes


@pytest.mark.parametrize(
    ("end", "unreached"),
    [
        ("until: {sign: Bright., then: pack}", True),
        ("until: {sign: Bright., then: scrap}", True),
        ("until: {sign: Bright., then: wipe}", False),  # that is the next step
        ("until: {sign: Bright., then: aside}", False),  # who decides may send it on
        ("until: [{sign: Bright., then: pack}, {sign: Dull.}]", False),
        ("until: {sign: Bright., then: pack}\n    for: {place: rim}", False),  # elsewhere it is left out
        ("until: {sign: Bright., then: pack}\n    troubles: {sign: Dull., then: wipe}", False),
    ],
)
def test_a_step_behind_one_that_never_goes_on(end: str, unreached: bool, tmp_path: Path) -> None:
    steps = (
        f"steps:\n  - id: polish\n    do: Polish it.\n    {end}\n"
        "  - {id: wipe, do: Wipe it.}\n  - {id: pack, do: Pack it.}"
    )
    assert bool(found("step-unreached", procedure("finish", steps=steps), tmp_path)) is unreached


# --- ways round -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("look", "circle"),
    [
        ("until: {sign: It rocks., then: sweep}", True),
        ("until: {sign: It rocks., then: again}", True),
        ("until: {sign: It rocks., then: sweep}\n    troubles: {sign: It is cracked., then: scrap}", True),
        ("until: [{sign: It rocks., then: sweep}, {sign: It lies still., then: next}]", False),
        ("until: [{sign: It rocks., then: sweep}, {sign: It lies still.}]", False),
        ("until: {sign: It rocks., then: sweep}\n    troubles: {sign: It lies still., then: stack}", False),
        ("limits: {rock: {is: max 1 mm, above: {do: Grind it again., then: sweep}}}", False),
    ],
)
def test_a_way_round_without_a_way_out(look: str, circle: bool, tmp_path: Path) -> None:
    steps = (
        f"steps:\n  - {{id: sweep, do: Sweep it along the belt.}}\n  - id: look\n    do: Try it.\n    {look}\n"
        "  - {id: stack, do: Stack it.}"
    )
    assert bool(found("route-circle", procedure("grind", steps=steps), tmp_path)) is circle


@pytest.mark.parametrize(
    ("repeat", "endless"),
    [
        ("{per: coat}", True),
        ("over 2", True),
        ("3", False),
        ("about 2", False),
        ("about 2; max 5", False),
        ("max [number of coats]", False),
        ("ask", False),  # a question already
        ("{times: min 2, until: It shines.}", False),
    ],
)
def test_a_loop_that_nothing_ends(repeat: str, endless: bool, tmp_path: Path) -> None:
    example = procedure("paint", steps=f"steps: [{{do: Spray it., repeat: {repeat}}}]")
    assert bool(found("loop-endless", example, tmp_path)) is endless


def test_an_end_that_is_asked_for_may_decide(tmp_path: Path) -> None:
    steps = "steps:\n  - do: Sweep it.\n    until:\n      clock: 2 min\n      feel:\n      wins: feel"
    assert not found("wins-none", procedure("grind", steps=steps), tmp_path)


@pytest.mark.parametrize(
    ("until", "told"),
    [
        ("clock: 10 min", True),
        ("{clock: 10 min, sign: It is grey all over., wins: sign}", False),
        ("clock: {is: {zinc: 8 min, brass: 12 min}, by: material}", False),
        ("clock: {is: 10 min, given: {room temperature: 20 °C}, follows: falls with room temperature}", False),
        ("clock: max pot life", False),
    ],
)
def test_the_clock_alone_on_what_varies(until: str, told: bool, tmp_path: Path) -> None:
    until = f"{{{until}}}" if not until.startswith("{") else until
    steps = (
        "steps:\n  - do: Hold it in the bath.\n    settings: {bath: {by: material, is: {zinc: 60 °C, brass: 80 °C}}}\n"
        f"    until: {until}"
    )
    assert bool(found("clock-alone", procedure("wash", steps=steps), tmp_path)) is told


# --- parts and procedures -------------------------------------------------------------------------------

JOINED = shop("products:", "  lantern: {title: Lantern, of: {foot: 1, hood: 1}}", "parts: {foot: Foot, hood: Hood}")


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ((), True),
        (("after: delivery of the sheet",), True),  # it has a beginning, but leads to nothing
        (("when: every 6 mo",), False),
        (("after: ask",), False),
    ],
)
def test_work_on_a_part_that_never_gets_into_the_whole(lines: tuple[str, ...], told: bool, tmp_path: Path) -> None:
    example = (
        JOINED + procedure("spin-hood", *lines, folder="hood") + procedure("cast-foot")
        + procedure("join", "part: [foot, hood]", "makes: lantern", "after: cast-foot", folder="lantern")
    )
    assert bool(found("procedure-unreached", example, tmp_path)) is told


def test_what_others_lead_to_is_reached(tmp_path: Path) -> None:
    row = procedure("cast") + procedure(
        "grind", "after: cast", "troubles: {sign: A pit., do: Solder it., then: mend}"
    )
    assert not found("procedure-unreached", row + procedure("mend"), tmp_path / "then")
    belt = "=== tools/belt.yml\ntooling: belt\ntitle: Belt\nupkeep: {use: dress, when: each day}\n"
    row = procedure("cast") + procedure("grind", "after: cast", "tools: belt")
    assert not found("procedure-unreached", row + belt + procedure("dress"), tmp_path / "upkeep")
    glue = "=== tools/glue.yml\nmaterial: glue\ntitle: Glue\n"
    assert not found("procedure-unreached", row + glue + procedure("boil-glue", "makes: glue"), tmp_path / "makes")


def test_a_shop_of_single_procedures_has_no_order_to_be_left_out_of(tmp_path: Path) -> None:
    assert not found("procedure-unreached", procedure("cast") + procedure("grind"), tmp_path)


def test_a_part_is_made_where_a_step_makes_it(tmp_path: Path) -> None:
    example = shop("parts: {blank: Blank, hood: Hood}") + procedure(
        "cut", folder="hood", steps="steps: [{do: Cut the blank., makes: blank}]"
    )
    assert not found("part-no-route", example, tmp_path)


def test_parts_are_put_together_by_somebody(tmp_path: Path) -> None:
    parts = "parts: {foot: Foot, glass: {title: Glass, supplier: The glass works.}}"
    whole = shop("products: {lantern: {title: Lantern, of: {foot: 1, glass: 1}}}", parts)
    (one,) = found("part-no-route", whole + procedure("cast"), tmp_path / "apart")
    assert one.message == "No procedure puts “Lantern” together."
    pair = shop("products: {bookends: {title: Pair of feet, of: {foot: 2}}}", parts)
    assert not found("part-no-route", pair + procedure("cast"), tmp_path / "pair")


def test_a_part_may_be_used_without_standing_in_a_list(tmp_path: Path) -> None:
    parts = shop("products: {lantern: {title: Lantern, of: {foot: 1}}}", "parts: {foot: Foot, pin: Pin, jig: Jig}")
    work = procedure("join", "materials: pin", "part: [foot, jig]")
    assert not found("part-unused", parts + work, tmp_path)


# --- variants -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("condition", "known"),
    [
        ("{finish: gloss}", True),
        ("{finish: [gloss, matt]}", True),
        ("{finish: glossy}", False),
        ("{finnish: gloss}", False),
        ("{material: brass}", True),
        ("{material: bras}", False),
        ("{machine: lathe}", True),
        ("{level: beside}", True),
        ("{level: besides}", False),
        ("{season: winter}", True),  # any word will do
        ("{place: the rim}", True),
        ("{heat of the room: under 12 °C}", True),  # measured here
        ("{piece mass: over 2 kg}", True),  # measured, and written nowhere else
        ("{heat of the rom: under 12 °C}", False),
        ("[{finish: gloss}, {belt: worn}]", True),  # found by the shared procedure
        ("{batch: half}", False),  # a choice within another procedure
    ],
)
def test_what_may_stand_in_a_for(condition: str, known: bool, tmp_path: Path) -> None:
    example = (
        shop("variants: {finish: {values: [gloss, matt], decided: the order}}")
        + procedure(
            "grind", "conditions: {heat of the room: 12..30 °C}",
            steps=f"steps:\n  - {{use: dress}}\n  - do: Sweep it.\n    for: {condition}",
        )
        + procedure("dress", steps="steps: [{do: Look., finds: {belt: {worn: Round., sound: Sharp.}}}]")
        + procedure("mix", "variants: {batch: {values: [half, tray], decided: start of mix}}")
        + "=== tools/brass.yml\nmaterial: brass\ntitle: Brass\n=== tools/lathe.yml\nmachine: lathe\ntitle: Lathe\n"
    )
    assert bool(found("variant-unknown", example, tmp_path)) is not known


def test_an_order_chooses_among_the_values_there_are(tmp_path: Path) -> None:
    variants = shop("variants: {finish: {values: [gloss, matt]}}")
    order = "=== procedures/orders/spring.yml\norder: spring\ntitle: Spring\nchosen: {finish: mat}\n"
    (one,) = found("variant-unknown", variants + order, tmp_path)
    assert (one.at.line, one.at.column) == (3, 18)
    assert one.fix.startswith("Did you mean `matt`?")


@pytest.mark.parametrize(
    ("one", "other", "both"),
    [
        ("{}", "{}", True),
        ("{}", "{finish: gloss}", False),  # where it is not gloss
        ("{finish: gloss}", "{finish: matt}", False),
        ("{finish: [gloss, matt]}", "{finish: [satin, matt]}", True),
        ("{finish: gloss}", "{pattern: deck}", True),
        ("{finish: gloss, pattern: deck}", "{finish: gloss, pattern: harbour}", False),
        ("[{finish: gloss}, {pattern: deck}]", "{finish: matt}", True),
        ("{room: 10..15 °C}", "{room: 15..25 °C}", False),
        ("{room: 10..16 °C}", "{room: 15..25 °C}", True),
        ("{room: under 59 °F}", "{room: over 15 °C}", False),
        ("{room: max 20 °C}", "{room: 20 °C}", True),
    ],
)
def test_values_that_hold_at_once(one: str, other: str, both: bool, tmp_path: Path) -> None:
    limits = [f"{{is: {figure} mm" + (f", for: {case}}}" if case != "{}" else "}")
              for figure, case in ((4, one), (5, other))]
    example = procedure("grind", f"limits: {{wall: [{', '.join(limits)}]}}")
    assert bool(found("variant-two-hits", example, tmp_path)) is both


def test_no_condition_excludes_nothing() -> None:
    gloss = ({Text("finish"): (Text("gloss"),)},)
    assert not exclude((), gloss)
    assert not exclude(gloss, gloss)


DECIDED = "variants: {{finish: {{values: [gloss, matt], decided: {}}}}}"


@pytest.mark.parametrize(
    ("decided", "rub", "late"),
    [
        ("spray", "for: {finish: gloss}", True),
        ("start of spray", "for: {finish: gloss}", True),
        ("rub", "for: {finish: gloss}", True),  # only when it is over
        ("start of rub", "for: {finish: gloss}", False),
        ("the order", "for: {finish: gloss}", False),
        ("[look, spray]", "for: {finish: gloss}", False),  # at the latest when sprayed, but perhaps before
        ("rub", "points: {point: Lightly., for: {finish: gloss}}", False),
        ("spray", "settings: {grit: {by: finish, is: {gloss: P600, matt: P320}}}", True),
    ],
)
def test_a_choice_within_a_procedure(decided: str, rub: str, late: bool, tmp_path: Path) -> None:
    steps = (
        f"steps:\n  - {{id: look, do: Look.}}\n  - id: rub\n    do: Rub it.\n    {rub}\n"
        "  - {id: spray, do: Spray it.}"
    )
    example = procedure("paint", DECIDED.format(decided), steps=steps)
    assert bool(found("variant-late", example, tmp_path)) is late


def test_what_is_done_again_may_need_what_was_found_meanwhile(tmp_path: Path) -> None:
    steps = (
        "steps:\n  - {id: wipe, do: Wipe it., for: {stain: brown}}\n  - id: look\n    do: Look.\n"
        "    finds: {stain: {none: Clean., brown: A veil.}}\n    troubles: {sign: A veil., then: wipe}"
    )
    assert not found("variant-late", procedure("check", steps=steps), tmp_path)


def test_a_choice_of_the_shop_is_needed_before_it_is_made(tmp_path: Path) -> None:
    row = (
        procedure("cast", "limits: {mass: {by: finish, is: {gloss: 1 kg, matt: 2 kg}}}")
        + procedure("grind", "after: cast") + procedure("paint", "after: grind")
    )
    decided = shop(DECIDED.format("start of paint"))
    (one,) = found("variant-late", decided + row, tmp_path / "late")
    assert one.about == "cast"
    assert "“Paint”, which comes later" in one.message
    order = "=== procedures/orders/spring.yml\norder: spring\ntitle: Spring\nchosen: {finish: matt}\n"
    assert not found("variant-late", decided + row + order, tmp_path / "ordered")


@pytest.mark.parametrize(
    ("values", "lines", "idle"),
    [
        ("[plain, gilded]", ["points: {point: Lay the leaf., for: {finish: gilded}}"], 0),  # one is the plain case
        ("[plain, gilded, painted]", ["points: {point: Lay the leaf., for: {finish: gilded}}"], 1),
        ("[plain, gilded]", [], 1),
        ("[plain, gilded]", ["settings: {tin: finish}"], 0),  # its value is printed
        ("[plain, gilded]", ["skill: {plain: filing, gilded: gilding}"], 0),
        ("[plain, gilded]", ["settings: {speed: {by: finish, is: {plain: 2 m/s, gilded: 1 m/s}}}"], 0),
    ],
)
def test_a_choice_on_which_nothing_depends(values: str, lines: list[str], idle: int, tmp_path: Path) -> None:
    example = procedure("paint", f"variants: {{finish: {{values: {values}, decided: the order}}}}", *lines)
    assert len(found("variant-idle", example, tmp_path)) == idle


def test_what_could_not_be_read_may_have_used_it(tmp_path: Path) -> None:
    idle = procedure("paint", "variants: {finish: {values: [plain, gilded], decided: the order}}")
    assert not found("variant-idle", idle + "=== procedures/foot/gild.yml\nprocedure: [\n", tmp_path)


def test_circles_are_met_once_each() -> None:
    edges = {"a": [("b", "ab"), ("c", "ac")], "b": [("a", "ba")], "c": [("c", "cc"), ("a", "ca")], "d": [("a", "da")]}
    assert list(circles(edges)) == [("ab", "ba"), ("cc",), ("ac", "ca")]
