"""What a view says is what the shop wrote: nothing lost, nothing crossed, nothing turned into something else."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import analysis
from site_builder.checks.example import write_example
from site_builder.views.blocks import Gauge, Stop
from site_builder.views.docket import docket
from site_builder.views.fact import facts_of
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import Only, Prose, Toned, pieces_in
from site_builder.views.ready import lay_ready
from site_builder.views.scope import ProcedureScope, scope_of
from site_builder.views.step import judged, steps
from site_builder.views.study.deeds import at_each_step, before_the_work
from site_builder.views.study.lesson import lesson
from site_builder.views.study.question import StudyScope
from site_builder.views.thing import thing_view
from site_builder.views.trouble import goes_wrong
from site_builder.views.uses import Uses

Shop = Callable[[str], NotebookView]


@pytest.fixture
def shop(tmp_path: Path) -> Shop:
    """A notebook written in the test: ``=== path`` before each file."""

    def written(text: str) -> NotebookView:
        write_example(text, tmp_path)
        return NotebookView(analysis(tmp_path, date(2026, 3, 2)))

    return written


def all_words(view: object) -> str:
    """Every word of a view, as it is read aloud, without the doubling of what stands within a piece."""
    found: list[str] = []

    def walk(one: object) -> None:
        if isinstance(one, Prose):
            found.append(one.plain)
        elif isinstance(one, str):
            found.append(one)
        elif isinstance(one, tuple | list):
            for inner in one:
                walk(inner)
        elif isinstance(one, Only):
            walk(one.words)  # its values are for the reader's choice
        elif hasattr(one, "__dataclass_fields__"):
            for name in one.__dataclass_fields__:
                walk(getattr(one, name))

    walk(view)
    return " ".join(" ".join(found).replace("\u00a0", " ").split())


HOOP = "=== procedures/cask/drive-hoop.yml\nprocedure: drive-hoop\ntitle: Drive the hoop\n"
VARIANTS = "variants: {wood: [oak, chestnut]}\n"


def test_a_longest_time_is_no_wait_and_a_shortest_one_is(shop: Shop) -> None:
    view = shop(HOOP + "steps:\n  - {do: Drive it down., wait: max 2 h}\n  - {do: Wet it., wait: min 10 min}\n"
                       "  - {do: Trim it., wait: 1 h}\n")
    scope = ProcedureScope(view, view.notebook.procedures["drive-hoop"])
    told = [block.what.plain for step in steps(scope) for block in step.blocks if isinstance(block, Gauge)]
    assert [words.split(",")[0] for words in told] == ["It may stand", "It must stand", "Let it stand"]


def test_ends_of_two_variants_are_no_stages(shop: Shop) -> None:
    ends = "until:\n  - {sign: it rings, for: {wood: oak}}\n  - {sign: it thuds, for: {wood: chestnut}}\n"
    view = shop(HOOP + VARIANTS + ends + "steps: [Drive it down.]\n")
    scope = ProcedureScope(view, view.notebook.procedures["drive-hoop"])
    (stop,) = [block for block in judged(scope, scope.own, None) if isinstance(block, Stop)]
    assert stop.by_case
    assert [stage.plain for stage in stop.stages] == ["Only for the oak wood: it rings.",
                                                      "Only for the chestnut wood: it thuds."]


def test_stages_stay_stages(shop: Shop) -> None:
    view = shop(HOOP + "until: [it rings, it is quiet]\nsteps: [Drive it down.]\n")
    scope = ProcedureScope(view, view.notebook.procedures["drive-hoop"])
    (stop,) = [block for block in judged(scope, scope.own, None) if isinstance(block, Stop)]
    assert not stop.by_case


def test_to_learn_the_step_of_two_variants_is_not_to_add_their_ends(shop: Shop) -> None:
    view = shop(HOOP + VARIANTS + "steps:\n  - do: Drive it down.\n    until:\n"
                "      - {sign: it rings, for: {wood: oak}}\n      - {sign: it thuds, for: {wood: chestnut}}\n"
                "    also: [{when: every 5 strokes, do: Turn it.}]\n")
    step = lesson(StudyScope(view, view.notebook.procedures["drive-hoop"])).steps[0]
    assert step.until.plain == "Only for the oak wood: it rings. Only for the chestnut wood: it thuds."
    assert "Every 5 strokes" in all_words(step.points) and "Turn it." in all_words(step.points)


def test_what_a_trouble_means_is_no_remedy(shop: Shop) -> None:
    view = shop(HOOP + "steps: [Drive it down.]\ntroubles:\n  - {sign: A stave splits, means: The cask leaks there., "
                       "do: Take it out.}\n")
    wrong = goes_wrong(ProcedureScope(view, view.notebook.procedures["drive-hoop"]))
    assert wrong is not None
    seen, _, remedy, _ = (cell.plain for cell in wrong.ledger.rows[0].cells)
    assert (seen, remedy) == ("A stave splits. The cask leaks there.", "Take it out.")


def test_the_reason_for_a_material_stands_at_it_and_not_behind_its_substitute(shop: Shop) -> None:
    view = shop(HOOP + "materials:\n  - {material: flag, or: rush, because: it swells when it is wet, not: straw}\n"
                       "steps: [Drive it down.]\n")
    ready = lay_ready(ProcedureScope(view, view.notebook.procedures["drive-hoop"]))
    assert ready is not None
    assert all_words(ready.kit) == "Materials flag because it swells when it is wet. Or rush. Not straw."


def test_a_material_that_is_taken_twice_keeps_for_whom_and_why(shop: Shop) -> None:
    view = shop(HOOP + VARIANTS + "steps:\n"
                "  - do: Drive it down.\n    materials: [{material: flag, amount: 2 g, for: {wood: oak}}]\n"
                "  - do: Drive it again.\n    materials: [{material: flag, amount: 5 g, because: it shrinks}]\n")
    ready = lay_ready(ProcedureScope(view, view.notebook.procedures["drive-hoop"]))
    assert "flag, 2 g 0.071 oz for the oak wood; 5 g" in all_words(ready)
    assert "5 g" in all_words(ready) and "because it shrinks" in all_words(ready)


@pytest.mark.parametrize(("written", "told"), [
    ("The wood is wet.", "because the wood is wet."), ("or it scorches", "Or it scorches"),
    ("to keep the edge", "To keep the edge"), ("so that it holds", "So that it holds"),
    ("P80 would scratch it", "because P80 would scratch it"), ("Orla wants it so", "because orla wants it so"),
])
def test_a_reason_goes_on_from_our_word_or_stands_as_it_was_said(written: str, told: str, shop: Shop) -> None:
    view = shop(HOOP + f"because: {written}\nsteps: [Drive it down.]\n")
    scope = ProcedureScope(view, view.notebook.procedures["drive-hoop"])
    assert [reason.plain for reason in scope.reasons(scope.own)] == [told]


def test_several_reasons_are_joined(shop: Shop) -> None:
    view = shop(HOOP + "because: [It is round., The hoop slips.]\nsteps: [Drive it down.]\n")
    scope = ProcedureScope(view, view.notebook.procedures["drive-hoop"])
    assert scope.inline_why(scope.own).plain == "because it is round. and because the hoop slips."
    assert [p.tone for p in pieces_in(scope.reasons(scope.own)) if isinstance(p, Toned)] == ["because", "because"]


def test_a_table_is_told_in_the_words_of_its_variants_and_never_by_its_keys(shop: Shop) -> None:
    view = shop("=== tools/materials/oak-wood.yml\nmaterial: oak-wood\ntitle: Oak, split\n" + HOOP +
                "steps:\n  - do: Drive it down.\n    limits:\n"
                "      play: {by: material, is: {oak-wood: 2 mm, ash: 3 mm}}\n"
                "    settings:\n      lead: {by: room temperature, is: {5..15 °C: 8 mm, 15..25 °C: 5 mm}}\n")
    told = all_words(steps(ProcedureScope(view, view.notebook.procedures["drive-hoop"])))
    assert "oak-wood" not in told and "5..15" not in told
    assert "8 mm 0.315 in at room temperature 5 to 15 °C; 5 mm 0.197 in at room temperature 15 to 25 °C" in told


def test_shared_work_in_short_tells_what_is_set(shop: Shop) -> None:
    view = shop("=== procedures/shared/wet.yml\nprocedure: wet\ntitle: Wet it\nsteps:\n"
                "  - {do: Pour., settings: {heat of the water: 80 °C}, limits: {depth: max 3 mm}}\n"
                + HOOP + "steps: [{use: wet}]\n")
    told = all_words(steps(ProcedureScope(view, view.notebook.procedures["drive-hoop"])))
    assert "Pour. Heat of the water 80 °C 176 °F. Depth at most 3 mm at most 0.118 in." in told


THING = """=== tools/hand/adze.yml
hand-tool: adze
title: Adze
properties:
  mass: {is: 2 kg, because: token-mass-why, note: token-mass-note, doubt: token-doubt}
checks:
  - {good: token-good, bad: [token-bad], because: token-check-why, note: token-check-note, write: token-write,
     fails: {do: token-do, means: token-means, because: token-fail-why}}
life:
  - {sign: token-sign, do: token-then, because: token-life-why, note: token-life-note}
hazards:
  - {hazard: token-hazard, because: token-hazard-why, note: token-hazard-note}
never:
  - {do: token-never, note: token-never-note}
upkeep:
  - {do: token-hone, points: [{point: token-point, because: token-point-why}], note: token-hone-note}
"""


def test_every_text_of_a_tool_is_told(shop: Shop) -> None:
    view = shop(THING)
    tool = view.notebook.tools["adze"]
    told = all_words(thing_view(scope_of(view, tool), Uses(view), tool)).lower()
    missing = [word for word in sorted({*re.findall(r"token[a-z-]+", THING)}) if word not in told]
    assert missing == []


def test_what_nobody_told_is_told_to_be_untold(shop: Shop) -> None:
    view = shop("=== tools/hand/adze.yml\nhand-tool: adze\ntitle: Adze\nhazards: [It cuts.]\nnever: [Swing it.]\n")
    tool = view.notebook.tools["adze"]
    told = all_words(thing_view(scope_of(view, tool), Uses(view), tool))
    assert "How to avoid it is not told yet" in told and "Why is not told yet" in told


def test_a_fact_says_who_holds_what_and_at_which_conditions(shop: Shop) -> None:
    view = shop("=== tools/materials/glue.yml\nmaterial: glue\ntitle: Glue\nproperties:\n"
                "  pot life: {is: 5 min, given: {room temperature: 20 °C}, doubt: It was a warm day.}\n")
    glue = view.notebook.materials["glue"]
    assert all_words(facts_of(scope_of(view, glue), glue.properties)) == (
        "Pot life 5 min Holds at room temperature 20 °C 68 °F. In doubt: it was a warm day.")


def test_what_comes_first_for_one_variant_only_is_told_at_the_head_and_in_the_lesson(shop: Shop) -> None:
    after = "after:\n  - {done: toast-cask, for: {wood: oak}}\n  - {done: soak-hoop, source: memory}\n"
    toast, soak = (f"=== procedures/cask/{id_}.yml\nprocedure: {id_}\ntitle: {title}\nsteps: [Do it.]\n"
                   for id_, title in (("toast-cask", "Toast the cask"), ("soak-hoop", "Soak the hoop")))
    view = shop(HOOP + VARIANTS + after + "steps: [Drive it down.]\n" + toast + soak)
    own = view.notebook.procedures["drive-hoop"]
    (told,) = [words.plain for name, words in docket(ProcedureScope(view, own), None) if name == "Only after"]
    assert "only for the oak wood" in told.lower()
    assert "Toast the cask" in told
    assert "Source: from memory" in told
    asked = all_words(tuple(before_the_work(StudyScope(view, own)))).lower()
    assert "oak" in asked.split("soak the hoop")[0]


def test_ends_that_exclude_each_other_keep_their_variant_in_the_lesson_and_are_no_row(shop: Shop) -> None:
    ends = "    until:\n      - {sign: it rings, for: {wood: oak}}\n      - {sign: it thuds, for: {wood: chestnut}}\n"
    view = shop(HOOP + VARIANTS + "steps:\n  - do: Drive it down.\n" + ends)
    asked = tuple(at_each_step(StudyScope(view, view.notebook.procedures["drive-hoop"])))
    words = all_words(asked)
    assert not any(question.ordered for question in asked)
    assert "oak" in words
    assert "chestnut" in words


def test_an_end_beside_shared_work_is_told_with_it(shop: Shop) -> None:
    wet = "=== procedures/cask/wet.yml\nprocedure: wet\ntitle: Wet it\nuntil: it drips\nsteps: [Pour.]\n"
    view = shop(HOOP + "steps:\n  - {id: first, use: wet, until: it is dark}\n" + wet)
    scope = ProcedureScope(view, view.notebook.procedures["drive-hoop"])
    words = all_words(steps(scope))
    assert "it is dark" in words
    assert "it drips" in words


def test_a_step_says_where_one_goes_on_and_a_limit_which_side_is_the_lesser_evil(shop: Shop) -> None:
    view = shop(HOOP + "steps:\n"
                "  - {do: Drive it down., then: pack, when: 18:00}\n"
                "  - do: Drive it again.\n    limits: {gap: {is: 1..2 mm, rather: below}}\n"
                "  - {id: pack, do: Pack it.}\n")
    told = steps(ProcedureScope(view, view.notebook.procedures["drive-hoop"]))
    assert "go on to step 3" in all_words(told[0]).lower()
    assert "At 18:00" in all_words(told[0])
    assert "If it must miss, rather too little than too much." in all_words(told[1])
    assert "rather" not in all_words(told[2])
