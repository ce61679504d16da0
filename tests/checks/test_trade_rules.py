"""Rules on metal and wheels: the edges that their own two examples do not show."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from test_route_rules import found

CAST = """\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: zinc
steps:
  - do: Pour it.
    settings: {casting temperature: HEAT}
=== tools/zinc.yml
material: zinc
title: Zinc eight
properties: {liquidus: 404 °C}
"""


def cast(heat: str) -> str:
    return CAST.replace("HEAT", heat)


@pytest.mark.parametrize(("heat", "said"), [
    ("450 °F", "450\u00a0°C (842\u00a0°F) would make sense."),  # 232 °C; 450 °C was meant
    ("390 °C", ""),  # too cold in both scales
    ("aim 410 °C; min 400; max 420", ""),  # the cold end counts
])
def test_a_pour_below_the_liquidus_asks_for_the_scale(heat: str, said: str, tmp_path: Path) -> None:
    only, = found("pour-below-liquidus", cast(heat), tmp_path)
    assert ("would make sense" in only.message) is bool(said) and said in only.message


def test_how_far_below_is_told_in_both_scales(tmp_path: Path) -> None:
    only, = found("pour-below-liquidus", cast("390 °C"), tmp_path)
    assert "14\u00a0°C (25\u00a0°F) below the liquidus of “Zinc eight”, 404 °C" in only.message


def test_the_liquidus_in_the_other_scale_is_the_same_liquidus(tmp_path: Path) -> None:
    in_fahrenheit = cast("390 °C").replace("liquidus: 404 °C", "liquidus: 759.2 °F")
    only, = found("pour-below-liquidus", in_fahrenheit, tmp_path)
    assert "14\u00a0°C" in only.message


@pytest.mark.parametrize(("heat", "count"), [
    ("440..480 °C", 0), ("410..450 °C", 1), ("480..530 °C", 1), ("406..540 °C", 2), ("390..450 °C", 0),
])
def test_each_side_of_the_superheat_is_told_by_itself(heat: str, count: int, tmp_path: Path) -> None:
    """A sixth of 404 + 273 is 113 over the liquidus, 517 °C."""
    assert len(found("pour-superheat", cast(heat), tmp_path)) == count


def test_800_that_is_meant_in_the_other_scale(tmp_path: Path) -> None:
    """800 °F is 427 °C."""
    only, = found("pour-superheat", cast("800 °C"), tmp_path)
    assert "800\u00a0°F (427\u00a0°C) would make sense." in only.message


def test_a_value_taken_over_is_told_once_where_it_is_written(tmp_path: Path) -> None:
    both = "{liquidus: 404 °C, casting temperature: 390 °C}"
    notebook = cast("zinc/casting temperature").replace("{liquidus: 404 °C}", both)
    only, = found("pour-below-liquidus", notebook, tmp_path)
    assert only.at.path == "tools/zinc.yml"


def test_brass_is_not_warned_of_for_its_zinc(tmp_path: Path) -> None:
    brass = cast("1020 °C").replace("404 °C", "905 °C").replace(
        "title: Zinc eight", "title: Brass\ncomposition: {copper: 63 %, zinc: 37 %}")
    assert not found("metal-near-boiling", brass, tmp_path / "brass")
    assert found("metal-near-boiling", cast("920 °C"), tmp_path / "zinc")


MOULD = """\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
tools: foot-mould
steps: [{use: coat, when: start}, Pour it.]
conditions: {heat of the mould: HEAT}
=== procedures/shared/coat.yml
procedure: coat
title: Coat the mould
materials: wash
steps: Brush it on.
=== tools/wash.yml
material: wash
title: Wash
properties: {heat of the mould: 150..280 °C}
=== tools/foot-mould.yml
tooling: foot-mould
title: Mould
properties: {heat of the mould: 200..260 °C}
"""


@pytest.mark.parametrize(("heat", "sides"), [
    ("210..250 °C", []),
    ("180..250 °C", ["colder than “Mould”"]),
    ("210..270 °C", ["hotter than “Mould”"]),
    ("100..300 °C", ["colder than “Mould”", "colder than “Wash”", "hotter than “Mould”", "hotter than “Wash”"]),
])
def test_the_coat_of_a_shared_procedure_and_the_mould_both_count(heat: str, sides: list[str], tmp_path: Path) -> None:
    messages = [one.message for one in found("mould-heat", MOULD.replace("HEAT", heat), tmp_path)]
    assert len(messages) == len(sides) and all(any(side in one for one in messages) for side in sides)


WHEEL = """\
=== procedures/foot/polish-foot.yml
procedure: polish-foot
title: Polish the foot
tools: [spindle, mop]
steps:
  - do: Polish it.
    SETTING
=== tools/spindle.yml
machine: spindle
title: Spindle
properties: {spindle speed: TURNS}
=== tools/mop.yml
tooling: mop
title: Mop
properties: {wheel size: 250 mm, rated speed: RATED}
"""


@pytest.mark.parametrize(("setting", "turns", "rated", "is_over"), [
    ("because: x", "2850 rev/min", "max 2500 rev/min", True),  # the machine turns at that speed only
    ("because: x", "2850 rev/min", "max 36 m/s", True),  # 37.3 m/s
    ("because: x", "2850 rev/min", "max 7500 ft/min", False),  # 38.1 m/s
    ("because: x", "900..2850 rev/min", "max 2500 rev/min", False),  # it can be set to less
    ("settings: {spindle speed: 1500 rev/min}", "2850 rev/min", "max 2500 rev/min", False),  # the setting counts
    ("settings: {mop speed: 35 m/s}", "2850 rev/min", "max 2500 rev/min", True),  # 2674 rev/min
    ("settings: {mop speed: 30 m/s}", "2850 rev/min", "max 2500 rev/min", False),
])
def test_turns_and_surface_speeds_are_held_against_one_another(
    setting: str, turns: str, rated: str, is_over: bool, tmp_path: Path
) -> None:
    notebook = WHEEL.replace("SETTING", setting).replace("TURNS", turns).replace("RATED", rated)
    assert bool(found("speed-over-rating", notebook, tmp_path)) is is_over


def test_a_band_is_met_where_the_setting_reaches_into_it(tmp_path: Path) -> None:
    """A buff on zinc: 25.4 to 40.6 m/s; 250 mm at 1940 rev/min run at 25.4 m/s."""
    shop = "=== procedures/shop.yml\nshop: q\ntitle: Q\nparts: {foot: {title: Foot, material: zinc}}\n"
    notebook = shop + "=== tools/zinc.yml\nmaterial: zinc\ntitle: Zinc\n" + WHEEL.replace("TURNS", "900..2850 rev/min")
    notebook = notebook.replace("RATED", "max 2900 rev/min")
    settings = "settings: {spindle speed: %s rev/min}"
    assert not found("speed-outside-band", notebook.replace("SETTING", settings % "1800..2000"), tmp_path / "reaches")
    slow, = found("speed-outside-band", notebook.replace("SETTING", settings % "1500..1800"), tmp_path / "slow")
    assert "slower than is recommended for a buff on zinc" in slow.message


def sand(*grits: str) -> str:
    steps = "".join(f"  - {{do: Sand it., settings: {{grit: {one}}}}}\n" for one in grits)
    return f"=== procedures/hood/sand-hood.yml\nprocedure: sand-hood\ntitle: Sand the hood\nsteps:\n{steps}"


@pytest.mark.parametrize(("grits", "fix"), [
    (("P80", "P120", "P180"), []),
    (("P180", "P80"), []),  # back to a coarser one
    (("P80", "P80"), []),
    (("wool", "P80"), []),  # no grade
    (("P80", "P180"), ["Put P120 between them."]),
    (("P80", "P240"), ["Put P120 and P180 between them."]),  # with one between, one of the two steps is too large
    (("P60..P180", "P240"), ["Put P100 between them."]),
])
def test_a_grit_that_is_missing_is_named(grits: tuple[str, ...], fix: list[str], tmp_path: Path) -> None:
    assert [one.fix for one in found("grit-step", sand(*grits), tmp_path)] == fix


@pytest.mark.parametrize(("coarse", "fine"), [("P40", "P1200"), ("P60", "P400"), ("80", "320"), ("F36", "F220")])
def test_who_puts_in_what_is_missing_hears_no_more_of_it(coarse: str, fine: str, tmp_path: Path) -> None:
    ends = [one if one[0] in "PF" else f"CAMI {one}" for one in (coarse, fine)]
    only, = found("grit-step", sand(*ends), tmp_path / "before")
    missing = re.findall(r"CAMI \d+|[PF]\d+", only.fix)
    assert not found("grit-step", sand(ends[0], *missing, ends[1]), tmp_path / "after")


def test_a_grade_of_no_standard_is_impossible_at_its_letter(tmp_path: Path) -> None:
    only, = found("figure-impossible", sand("P80..P185"), tmp_path)
    assert only.at.column == len("  - {do: Sand it., settings: {grit: P80..") + 1


def test_shrinkage_of_more_than_all_is_impossible(tmp_path: Path) -> None:
    foot = "foot: {title: Foot, material: zinc, sizes: {base: 160 mm}}"
    shop = f"=== procedures/shop.yml\nshop: q\ntitle: Q\nparts: {{{foot}}}\n"
    notebook = shop + cast("450 °C").replace("{liquidus: 404 °C}", "{liquidus: 404 °C, shrinkage: 120 %}")
    only, = found("figure-impossible", notebook, tmp_path)
    assert only.at.path == "tools/zinc.yml" and "`shrinkage` is a share" in only.message


HEAVY = """\
=== procedures/shop.yml
shop: quay
title: Quay
parts:
  foot: {title: Foot, material: zinc, sizes: {SIZES}}
=== tools/zinc.yml
material: zinc
title: Zinc
properties: {density: 6.0 g/cm³}
"""


@pytest.mark.parametrize(("sizes", "count"), [
    ("volume: 100 cm³, mass: 0.56 kg", 0),  # 0.6 kg; pores take their share
    ("volume: 100 cm³, mass: 0.5 kg", 1),
    ("volume: 6.1024 in³, mass: 1.323 lb", 0),  # the same foot
    ("volume: 6.1024 in³, mass: 2.2 lb", 1),
    ("volume: {by: pattern, is: {ring: 100 cm³, pads: 200 cm³}}, "
     "mass: {by: pattern, is: {ring: 0.6 kg, pads: 1.2 kg}}", 0),
    ("volume: {by: pattern, is: {ring: 100 cm³, pads: 200 cm³}}, "
     "mass: {by: pattern, is: {ring: 1.2 kg, pads: 0.6 kg}}", 2),  # each pattern is held against its own
    ("volume: 100 cm³, mass: ask", 0),
])
def test_a_mass_and_the_volume_it_should_have(sizes: str, count: int, tmp_path: Path) -> None:
    """Mass is volume times density: 100 cm³ × 6.0 g/cm³ is 0.6 kg."""
    assert len(found("mass-off-volume", HEAVY.replace("{SIZES}", "{" + sizes + "}"), tmp_path)) == count


def test_what_the_volume_weighs_is_told(tmp_path: Path) -> None:
    only, = found("mass-off-volume", HEAVY.replace("{SIZES}", "{volume: about 100 cm³, mass: 1 kg}"), tmp_path)
    assert "weighs about 600\u00a0g (1.3\u00a0lb)" in only.message
