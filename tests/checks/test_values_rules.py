"""Rules on values beyond their two examples: what they must find, and above all what they must let pass."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine
from site_builder.checks.example import write_example
from site_builder.checks.rules import RULES
from site_builder.notebook.finding import Finding

TODAY = date(2026, 11, 24)


@pytest.fixture
def found(tmp_path: Path):
    """Write a notebook and return what one rule finds in it."""

    def run(code: str, notebook: str) -> list[Finding]:
        write_example(notebook, tmp_path)
        rules = [rule for rule in RULES if rule.code == code]
        assert rules, f"there is no rule {code}"
        return [f for f in examine(analysis(tmp_path, TODAY), rules) if f.code in (code, "rule-crashed")]

    return run


def grind(rest: str) -> str:
    return f"=== procedures/foot/grind-foot.yml\nprocedure: grind-foot\ntitle: Grind the foot flat\n{rest}"


# ------------------------------------------------------------------ questions


@pytest.mark.parametrize(("written", "asked"), [
    ("time: ask", "how long does it take?"),
    ("time: {each: ask}", "how long does one piece take?"),
    ("wait: min 14 h; max ask", "how long may it stand afterwards at most?"),
    ("limits: {flatness: max ask}", "what is the flatness at most?"),
    ("limits: {flatness: {with: surface-plate}}", "what is the flatness?"),
    ("windows: {recoat: ask}", "how long may “recoat” take?"),
    ("hands:", "how many hands does it take?"),
])
def test_a_value_not_told_is_asked_for_in_plain_words(found, written: str, asked: str) -> None:
    only, = found("value-ask", grind(f"steps: Sweep it along the belt.\n{written}\n"))
    assert only.message == f"“Grind the foot flat”: {asked}"
    assert only.about == "grind-foot"


def test_a_step_that_says_nothing_yet_is_asked_for_by_its_number(found) -> None:
    only, = found("value-ask", grind("steps:\n  - do: Sweep it along the belt.\n  - do: ask\n"))
    assert only.message == "Step 2 of “Grind the foot flat”: what is to be done?"


def test_a_row_that_is_not_told_says_which_row(found) -> None:
    only, = found("value-ask", grind(
        "steps: Sweep it.\nsettings:\n  belt speed: {by: material, is: {brass: 25 ±3 m/s, zinc: ask}}\n"
    ))
    assert only.message == "“Grind the foot flat”: what is the belt speed (zinc)?"
    assert (only.at.line, only.at.column) == (5, 59)


def test_what_is_disputed_is_not_asked_for_a_second_time(found) -> None:
    notebook = grind(
        "steps: Sweep it.\nlimits:\n  flatness:\n    is: ask\n"
        "    said: [{is: max 0.1 mm, who: edda}, {is: max 0.2 mm, who: josk}]\n"
    )
    assert found("value-ask", notebook) == []
    only, = found("value-disputed", notebook)
    assert "edda says at most 0.1 mm; josk says at most 0.2 mm" in only.message.replace("\u00a0", " ")


def test_a_count_is_exact_and_a_fact_of_a_tool_is_no_limit(found) -> None:
    assert found("no-limits", grind(
        "steps: Put the screws in.\nlimits: {screws: 4 pieces}\n"
        "=== tools/machines/belt-grinder.yml\nmachine: belt-grinder\ntitle: Belt grinder\n"
        "properties: {mass: 64 kg}\n"
    )) == []


def test_a_check_that_says_what_to_do_when_it_fails_needs_no_sides(found) -> None:
    assert found("side-unsaid", grind(
        "steps: Sweep it.\nlimits:\n  flatness:\n    is: max 0.1 mm\n"
        "    check: {when: each piece, fails: {do: Take one more pass.}}\n"
    )) == []


def test_nothing_is_below_a_range_that_begins_at_nought(found) -> None:
    only, = found("side-unsaid", grind("steps: Sweep it.\nlimits: {gap: {is: 0..0.2 mm, check: each piece}}\n"))
    assert "is above" in only.message and "below" not in only.message


def test_the_sides_of_a_value_taken_over_are_those_of_the_other(found) -> None:
    only, = found("side-unsaid", grind(
        "steps: Sweep it.\npart: foot\nlimits: {wall of the foot: {is: foot/wall, check: each piece}}\n"
        "=== procedures/shop.yml\nshop: corvane\ntitle: Lanterns\n"
        "parts: {foot: {title: Foot, sizes: {wall: min 3 mm}}}\n"
    ))
    assert only.fix.startswith("Add `below:`")


# ------------------------------------------------------------------ names


SHARED = grind(
    "materials: [zinc]\nsteps:\n  - {do: Pour it., materials: zinc}\n  - do: Skim it.\n"
    "    settings: {heat: max melting point plus 60 K}\n"
    "=== tools/materials/zinc.yml\nmaterial: zinc\ntitle: Zinc\nproperties: {melting point: 419 °C}\n"
)


def test_a_material_used_in_two_steps_is_one_material(found) -> None:
    assert found("reference-two", SHARED) == []
    assert found("name-none", SHARED) == []


def test_a_name_within_its_own_value_means_the_one_further_out(found) -> None:
    notebook = grind(
        "part: foot\nsteps: Sweep it.\nlimits: {height: max height plus 0.2 mm}\n"
        "=== procedures/shop.yml\nshop: corvane\ntitle: Lanterns\n"
        "parts: {foot: {title: Foot, sizes: {height: 42 ±0.2 mm}}}\n"
    )
    assert found("name-none", notebook) == []
    assert found("reference-circle", notebook) == []


def test_a_name_that_stands_only_in_its_own_value_leads_nowhere(found) -> None:
    only, = found("name-none", grind("steps: Sweep it.\nlimits: {height: max 2 x height}\n"))
    assert only.message == "No value is called `height`."


@pytest.mark.parametrize("word", ["matt", "P80", "max P120", "P80..P120", "type 316", "and/or"])
def test_a_plain_word_is_no_name(found, word: str) -> None:
    assert found("name-none", grind(f"steps: Sweep it.\nsettings: {{finish: {word}}}\n")) == []


def test_a_path_into_a_thing_that_has_no_such_value_is_told_with_the_nearest(found) -> None:
    only, = found("name-none", grind(
        "steps: Sweep it.\nlimits: {wall: filler/pot live}\n"
        "=== tools/materials/filler.yml\nmaterial: filler\ntitle: Filler\nproperties: {pot life: about 5 min}\n"
    ))
    assert only.fix == "Did you mean `filler/pot life`?"


def test_nothing_is_said_of_names_while_the_shop_cannot_be_read(found) -> None:
    assert found("name-none", grind(
        "part: foot\nsteps: Sweep it.\nlimits: {depth: max 1/2 of wall}\n=== procedures/shop.yml\n- nothing\n"
    )) == []


# ------------------------------------------------------------------ tables


def table(rows: str, by: str = "room temperature", more: str = "") -> str:
    return grind(f"{more}steps: Sweep it.\nsettings:\n  hardener:\n    by: {by}\n    is: {{{rows}}}\n")


@pytest.mark.parametrize("rows", [
    "12..18 °C: 3 %, 18..24 °C: 2 %",
    "18..24 °C: 2 %, 12..18 °C: 3 %",
    "under 12 °C: 3 %, 12..24 °C: 2 %, over 24 °C: 1 %",
    "1..10 pieces: 3 %, 11..20 pieces: 2 %",
    "half: 3 %, whole: 2 %",
])
def test_rows_that_follow_one_another_are_let_pass(found, rows: str) -> None:
    assert found("table-overlap", table(rows)) == []
    assert found("table-gap", table(rows)) == []


def test_a_figure_that_no_row_takes_is_a_gap(found) -> None:
    only, = found("table-gap", table("under 12 °C: 3 %, over 12 °C: 2 %"))
    assert "the table says nothing" in only.message


def test_a_row_that_is_open_to_the_same_side_as_another_overlaps(found) -> None:
    assert len(found("table-overlap", table("over 12 °C: 3 %, over 24 °C: 2 %"))) == 1


def test_rows_by_material_are_ids_of_materials(found) -> None:
    zinc = "=== tools/materials/zinc.yml\nmaterial: zinc\ntitle: Zinc\n"
    only, = found("row-not-a-variant", table("zinc: 3 %, zink: 2 %", "material") + zinc)
    assert only.message == "`zink` is none of the values of `material`."


def test_what_the_work_finds_is_a_variant_too(found) -> None:
    finds = "finds: {metal: {sound: It rings., cracked: It is dull.}}\n"
    assert found("row-not-a-variant", table("sound: 3 %, cracked: 2 %", "metal", finds)) == []
    assert found("by-unknown", table("sound: 3 %, cracked: 2 %", "metal", finds)) == []


def test_a_measured_name_needs_no_entry_but_must_not_look_like_a_slip(found) -> None:
    rows = "12..18 °C: 3 %, 18..24 °C: 2 %"
    assert found("by-unknown", table(rows, "dew point")) == []
    only, = found("by-unknown", table(rows, "room temparature", "conditions: {room temperature: 12..24 °C}\n"))
    assert only.fix == "Did you mean `room temperature`?"


def test_a_table_says_by_what_it_is_read(found) -> None:
    only, = found("by-unknown", grind("steps: Sweep it.\nsettings: {speed: {is: {brass: 25 m/s, zinc: 18 m/s}}}\n"))
    assert only.message == "This table does not say by what it is read."


# ------------------------------------------------------------------ sums and relative limits


COATS = """\
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
variants: {finish: {values: [matt, gloss]}}
steps:
  - id: first
    do: Spray it.
    limits: {film: {by: finish, is: {matt: 20..30 µm, gloss: 40..50 µm}}}
  - id: second
    do: Spray it again.
    limits: {film: 20..30 µm}
limits: {whole film: {is: WHOLE, sum: [first/film, second/film]}}
"""


def test_of_variants_the_widest_span_counts(found) -> None:
    assert found("sum-impossible", COATS.replace("WHOLE", "max 45 µm")) == []
    only, = found("sum-impossible", COATS.replace("WHOLE", "max 35 µm"))
    assert only.message == "The parts come to 40 µm at least, which is over `max 35 µm`."


def test_parts_with_variants_are_not_said_to_reach_past(found) -> None:
    assert found("sum-past", COATS.replace("WHOLE", "45..60 µm")) == []


def test_play_between_a_hole_and_a_pin_is_a_sum_with_minus(found) -> None:
    """ISO 286-2: 6 H8 is 0/+18 µm and 6 f7 is -22/-10 µm, so the play is 10 to 40 µm."""
    notebook = grind(
        "steps: Ream it.\nlimits:\n  bore: 6 H8 mm\n  pin: 6 f7 mm\n"
        "  play: {is: min 0.01 mm; max LARGEST mm, sum: [bore, minus pin]}\n"
    )
    assert found("sum-past", notebook.replace("LARGEST", "0.04")) == []
    only, = found("sum-past", notebook.replace("LARGEST", "0.03"))
    assert "0.04 mm at most" in only.message


def test_a_bound_on_a_size_with_variants_is_not_called_empty(found) -> None:
    assert found("limit-empty", grind(
        "variants: {pattern: {values: [harbour, deck]}}\nsteps: Fill it.\nlimits:\n"
        "  wall: {by: pattern, is: {harbour: 2 ±0.2 mm, deck: 8 ±0.2 mm}}\n"
        "  depth: min 2 mm; max 1/2 of wall\n"
    )) == []


def test_parts_of_another_kind_cannot_be_summed(found) -> None:
    only, = found("unit-wrong-kind", grind(
        "steps: Fill it.\nlimits:\n  wall: 2 ±0.2 mm\n  weight: 40 ±2 g\n"
        "  whole: {is: max 5 mm, sum: [wall, weight]}\n"
    ))
    assert only.message == "`weight` is a mass, as `2.5 kg`; it cannot be summed to `max 5 mm`."


# ------------------------------------------------------------------ machines, tooling, materials


MOP = """\
=== tools/tooling/mop.yml
tooling: mop
title: Sisal mop
properties: {wheel size: 250 mm, rated speed: max 30 m/s}
"""


def test_the_rim_of_a_wheel_runs_at_pi_times_its_diameter_times_its_turns(found) -> None:
    """250 mm at 2800 rev/min: 0.25 m x 3.1416 x 2800/60 s = 36.7 m/s."""
    notebook = grind("tools: mop\nsteps: Polish it.\nsettings: {spindle speed: TURNS rev/min}\n") + MOP
    assert found("speed-over-rating", notebook.replace("TURNS", "2200")) == []
    only, = found("speed-over-rating", notebook.replace("TURNS", "2800"))
    assert "runs at 36.7\u00a0m/s, 22\u00a0% over" in only.message


def test_of_two_toolings_that_hang_ready_one_may_bear_it(found) -> None:
    other = MOP.replace("mop", "cotton").replace("Sisal", "Cotton").replace("max 30 m/s", "max 50 m/s")
    notebook = grind("tools: [mop, cotton]\nsteps: Polish it.\nsettings: {spindle speed: 2800 rev/min}\n")
    assert found("past-the-tooling", notebook + MOP + other) == []
    assert found("speed-over-rating", notebook + MOP + other) == []


LATHE = "=== tools/machines/lathe.yml\nmachine: lathe\ntitle: Lathe\nproperties: {PROPERTY}\n"


@pytest.mark.parametrize(("setting", "bears", "is_past"), [
    ("700 rev/min", "speed: 300..1600 rev/min", False),
    ("aim 700 rev/min; min 200; max 900", "speed: 300..1600 rev/min", True),
    ("1800 rev/min", "rated speed: 1600 rev/min", True),
    ("1400 rev/min", "rated speed: 1600 rev/min", False),
    ("1600 rev/min", "speed: 1600 rev/min", False),
    ("700 rev/min", "speed: 1600 rev/min", True),
    ("min 700 rev/min", "speed: 1600 rev/min", False),
    ("12 m/s", "rated speed: 1600 rev/min", False),
])
def test_a_setting_keeps_to_what_its_machine_can_do(found, setting: str, bears: str, is_past: bool) -> None:
    notebook = grind(f"steps: Turn it.\nsettings: {{speed: {{is: {setting}, tool: lathe}}}}\n")
    assert bool(found("past-the-machine", notebook + LATHE.replace("PROPERTY", bears))) is is_past


def test_metal_is_not_poured_below_its_liquidus(found) -> None:
    notebook = grind(
        "materials: zinc\nsteps: Pour it.\nsettings: {pouring temperature: 420 ±10 °C}\n"
        "=== tools/materials/zinc.yml\nmaterial: zinc\ntitle: Zinc\nproperties: {liquidus: 432 °C}\n"
    )
    only, = found("pour-below-liquidus", notebook)
    assert "below the liquidus of “Zinc”" in only.message
    assert found("past-the-material", notebook) == []


def test_a_row_by_material_is_held_against_that_material(found) -> None:
    metals = "".join(
        f"=== tools/materials/{id_}.yml\nmaterial: {id_}\ntitle: {id_}\nproperties: {{casting temperature: {heat}}}\n"
        for id_, heat in (("zinc", "440..480 °C"), ("brass", "1000..1060 °C"))
    )
    notebook = grind(
        "materials: [zinc, brass]\nsteps: Pour it.\nsettings:\n"
        "  casting temperature: {by: material, is: {zinc: 1030 °C, brass: 1030 °C}}\n"
    )
    only, = found("past-the-material", notebook + metals)
    assert "“zinc”" in only.message


# ------------------------------------------------------------------ windows


def paint(steps: str, shop: str = "") -> str:
    return f"=== procedures/foot/paint-foot.yml\nprocedure: paint-foot\ntitle: Paint the foot\nsteps:\n{steps}{shop}"


@pytest.mark.parametrize(("between", "is_impossible"), [
    ("{do: Warm it., time: about 20 min}", True),
    ("{do: Let it hang., wait: min 20 min}", True),
    ("{do: Warm it., time: about 20 min, unless: It is warm.}", False),
    ("{do: Fetch another., time: about 20 min, when: start}", False),
    ("{do: Warm it., time: 3 min}", False),
])
def test_only_what_must_be_done_between_two_moments_counts(found, between: str, is_impossible: bool) -> None:
    notebook = paint(
        f"  - {{id: mix, do: Mix it.}}\n  - {between}\n  - do: Spray it.\n"
        "    windows: {open time: {is: max 10 min, after: mix}}\n"
    )
    assert bool(found("window-impossible", notebook)) is is_impossible


def test_a_window_of_a_procedure_closes_at_its_end(found) -> None:
    notebook = (
        "=== procedures/foot/fill-foot.yml\nprocedure: fill-foot\ntitle: Fill it\nsteps: Press it in.\n"
        + paint("  - {do: Spray it., time: 2 h}\nafter: fill-foot\n"
                "windows: {recoat: {is: max 1 h, after: fill-foot}}\n")
    )
    only, = found("window-impossible", notebook)
    assert only.message == "The steps between take 2 h at the least, and the window closes after 60 min."


CALENDAR = "=== procedures/shop.yml\nshop: corvane\ntitle: Lanterns\ncalendar: {hours: 7 h/day}\n"


@pytest.mark.parametrize(("wait", "at_night"), [
    ("min 4 h; max 12 h", True),
    ("min 8 h; max 16 h", True),
    ("min 4 h; max 40 h", False),
    ("min 10 min; max 4 h", False),
    ("min 4 h; max same day", False),
    ("max 4 h", False),
])
def test_a_window_that_may_fall_into_the_night(found, wait: str, at_night: bool) -> None:
    notebook = paint(f"  - {{do: Spray it., wait: {wait}}}\n  - Spray it again.\n", CALENDAR)
    assert bool(found("window-night", notebook)) is at_night


def test_no_day_is_thirty_hours_long(found) -> None:
    only, = found("window-empty", paint("  - {do: Spray it., wait: min 30 h; max same day}\n"))
    assert only.message == "`min 30 h; max same day` leaves nothing: 30 h at the least, the same day at the most."


# ------------------------------------------------------------------ the rest


def test_a_size_on_the_way_is_not_yet_that_of_the_part(found) -> None:
    """The casting is thicker than the foot will be; only what the last work leaves is the foot's height."""
    notebook = grind(
        "part: foot\nafter: cast-foot\nsteps: Sweep it.\nlimits: {height: 42 ±0.1 mm}\n"
        "=== procedures/foot/cast-foot.yml\nprocedure: cast-foot\ntitle: Cast it\npart: foot\nsteps: Pour it.\n"
        "limits: {height: 43.5 ±0.2 mm}\n"
        "=== procedures/shop.yml\nshop: corvane\ntitle: Lanterns\n"
        "parts: {foot: {title: Foot, sizes: {height: 42 ±0.2 mm}}}\n"
    )
    assert found("sizes-disagree", notebook) == []


def test_a_gauge_for_temperatures_reads_in_differences(found) -> None:
    gauge = (
        "=== tools/gauges/pyrometer.yml\ngauge: pyrometer\ntitle: Pyrometer\n"
        "properties: {range: 0..900 °C, resolution: READS}\n"
    )
    notebook = grind("steps: Pour it.\nsettings: {heat: {is: 490..500 °C, with: pyrometer}}\n")
    assert found("gauge-coarse", notebook + gauge.replace("READS", "1 °C difference")) == []
    assert len(found("gauge-coarse", notebook + gauge.replace("READS", "5 K"))) == 1
    assert found("unit-wrong-kind", notebook + gauge.replace("READS", "5 K")) == []


def test_a_caliper_weighs_nothing(found) -> None:
    only, = found("unit-wrong-kind", grind(
        "steps: Sweep it.\nlimits: {mass: {is: 1.1 ±0.1 kg, with: caliper}}\n"
        "=== tools/gauges/caliper.yml\ngauge: caliper\ntitle: Caliper\nproperties: {range: 0..300 mm}\n"
    ))
    assert only.message == "“Caliper” reads 0 mm to 300 mm, and `1.1 ±0.1 kg` is of another kind."


@pytest.mark.parametrize("written", [
    "time: {setup: 3 kg, each: 5 min, source: measured}",
    "wait: min 3 m",
    "yield: {scrap: 3 mm}",
    "settings: {belt speed: 1400 rev/min}",
    "limits: {film: {by: room temperature, is: {12..18 °C: 3 mm, 18..24 °C: 3 g}}}",
])
def test_a_value_of_the_wrong_kind_is_found_at_every_key(found, written: str) -> None:
    assert len(found("unit-wrong-kind", grind(f"steps: Sweep it.\n{written}\n"))) == 1


@pytest.mark.parametrize("written", [
    "time: {each: 20 min per 12 pieces, source: measured}",
    "wait: max 3 working days",
    "yield: {scrap: 3 pieces per 100 pieces}",
    "limits: {pot life: {is: 5 min, given: {room temperature: 20 °C}}}",
    "settings: {heat: judged}",
])
def test_values_of_a_fitting_kind_are_let_pass(found, written: str) -> None:
    assert found("unit-wrong-kind", grind(f"steps: Sweep it.\n{written}\n")) == []


def test_a_judged_value_may_tell_its_own_sign(found) -> None:
    told = grind("steps: Rub it on.\nconditions: {tallow: 'judged by a nail, it must take the print'}\n")
    assert found("judged-bare", told) == []


def test_a_step_is_timed_with_the_whole(found) -> None:
    assert found("time-unbased", grind(
        "time: {each: 5 min, source: timed over 40 pieces}\nsteps:\n  - {do: Sweep it., time: about 10 s}\n"
    )) == []


def test_the_last_answer_tells_how_old_a_dispute_is(found) -> None:
    notebook = grind(
        "steps: Sweep it.\nlimits:\n  flatness:\n    said:\n"
        "      - {is: max 0.1 mm, who: edda, date: 2019-03}\n      - {is: max 0.2 mm, who: josk, date: DATE}\n"
    )
    assert found("doubt-old", notebook.replace("DATE", "2026-02-01")) == []
    only, = found("doubt-old", notebook.replace("DATE", "2025-02-01"))
    assert "since 2025-02-01" in only.message
