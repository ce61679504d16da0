"""Metal and mould on small notebooks: what is told of a pour, a mould, a batch of castings, a charge."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.example import write_example
from site_builder.figures.figure import Figure, Missing

FOUNDRY = """\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts:
  foot: {title: Foot, material: zinc-eleven, sizes: {base: 160 mm, mass: 1.2 kg}}
calendar: {hours: 7 h/day, days: [Monday, Tuesday, Wednesday, Thursday, Friday]}
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
tools: [furnace, foot-mould]
materials: {material: zinc-eleven, amount: 1.5 kg per piece}
time: {setup: 1 h, each: 6 min}
yield: {scrap: 20 %}
steps:
  - do: Pour in one stream.
    settings: {casting temperature: 490..520 °C}
=== procedures/orders/spring.yml
order: spring
title: Spring
product: foot
pieces: 80
due: 2027-05-01
=== tools/furnace.yml
machine: furnace
title: Furnace
properties: {capacity: max 40 kg, power: 40 kW}
=== tools/foot-mould.yml
tooling: foot-mould
title: Mould for the foot
properties: {base: 162 mm}
=== tools/zinc-eleven.yml
material: zinc-eleven
title: Zinc eleven
composition: {zinc: 88 %, aluminium: 11 %, copper: 1 %}
properties:
  density: 6 g/cm³
  solidus: 377 °C
  liquidus: 432 °C
  shrinkage: 1.3 %
  melt loss: 4 %
  specific heat: 450 J/kg per K
  latent heat: 120 kJ/kg
  returns in the pot: 50 %
  aluminium of the returns: 10 %
"""
Told = Callable[..., list[Figure]]


def read(folder: Path, notebook: str) -> Analysis:
    folder.mkdir(exist_ok=True)
    write_example(notebook, folder)
    return analysis(folder, date(2026, 11, 24))


@pytest.fixture
def told(tmp_path: Path) -> Told:
    """The figures of one formula on one page; ``changes`` are pairs of what is written and what stands instead."""

    def run(kind: str, id_: str, formula: str, *changes: tuple[str, str]) -> list[Figure]:
        notebook = FOUNDRY
        for old, new in changes:
            assert old in notebook
            notebook = notebook.replace(old, new)
        found = read(tmp_path, notebook).figures.get((kind, id_), ())
        return [one for one in found if isinstance(one, Figure) and one.formula == formula]

    return run


def said(figure: Figure) -> str:
    return figure.sentence.replace("\u00a0", " ")


def test_a_pour_is_told_over_its_liquidus_with_the_lines_it_rests_on(told: Told) -> None:
    """490 - 432 = 58, 520 - 432 = 88; zinc boils at 907."""
    one, = told("procedure", "cast-foot", "superheat")
    assert said(one).startswith("At 490 to 520 °C (914 to 968 °F) “Zinc eleven” is 58 to 88 °C (104 to 158 °F) over")
    assert "Zinc boils 387 °C" in said(one)
    assert [(i.name, i.written, i.kind, i.id, i.at.line) for i in one.inputs if i.at is not None] == [
        ("casting temperature", "490..520 °C", "procedure", "cast-foot", 9),
        ("liquidus", "432 °C", "material", "zinc-eleven", 7),
    ]
    assert "measuring the air" in one.caution


def test_a_mould_is_cut_larger_by_the_shrinkage_and_gives_the_part_back(told: Told) -> None:
    """160 x 1.013 = 162.08; 162 / 1.013 = 159.92."""
    cut, = told("part", "foot", "shrinkage allowance")
    assert "base 160 mm is cut 162.1 mm" in said(cut)
    back, = told("tool", "foot-mould", "shrinkage allowance")
    assert said(back) == "Cut 162 mm, it gives “Foot” a base of 159.9 mm; 160 mm is wanted: it comes out too small."


def test_the_same_mould_in_inches_is_the_same_mould(told: Told) -> None:
    """160 mm is 6.2992 in, cut 6.381 in: 162.08 mm."""
    cut, = told("part", "foot", "shrinkage allowance", ("base: 160 mm", "base: 6.2992 in"))
    assert "base 6.299 in is cut 6.381 in" in said(cut)


def test_a_part_weighs_its_volume_in_its_metal(told: Told) -> None:
    one, = told("part", "foot", "mass from volume", ("mass: 1.2 kg", "volume: 200 cm³"))
    assert said(one) == "Of 200 cm³ of “Zinc eleven” it weighs 1.2 kg (2.6 lb)."
    other, = told("part", "foot", "mass from volume")
    assert "fill 200 cm³ (12.2 in³)" in said(other)


def test_metal_for_a_batch_counts_gates_scrap_and_dross(told: Told) -> None:
    """Of n castings 0.2 fail: n x 1.5 kg is poured, that / 0.96 melted, n x (1.5 - 0.8 x 1.2) comes back."""
    one, = told("order", "spring", "metal for a batch")
    castings = int(next(i.written for i in one.inputs if i.name == "castings"))
    assert castings >= 100, "80 good ones at 20 % scrap need 100 on average, and more to be sure"
    assert said(one).startswith(f"“Foot”: {castings} castings, {castings * 1.5:.3g} kg")
    assert f"and {castings * 1.5 / 0.96:.3g} kg" in said(one)
    assert f"{castings * 0.54:.3g} kg" in said(one)


def test_for_each_good_casting(told: Told) -> None:
    """1.5 / 0.8 / 0.96 = 1.953 kg; 0.8 x 1.2 / 1.5 = 64 %."""
    one, = told("procedure", "cast-foot", "casting yield")
    assert said(one) == "For each good “Foot” 1.95 kg (4.31 lb) is melted; 64 % of what is poured is good castings."


def test_the_melt_loss_may_be_set_in_the_work_and_is_assumed_where_nobody_tells(told: Told) -> None:
    untold, told_here = ("  melt loss: 4 %\n", ""), ("{scrap: 20 %}", "{scrap: 20 %}\nsettings: {melt loss: 4 %}")
    one, = told("procedure", "cast-foot", "casting yield", untold, told_here)
    assert said(one).startswith("For each good “Foot” 1.95 kg")
    one, = told("procedure", "cast-foot", "casting yield", untold)
    assert said(one).startswith("For each good “Foot” 1.88 kg")  # 1.5 / 0.8 and nothing lost
    assert ("melt loss", "assumed: none, as none is told") in [(i.name, i.written) for i in one.inputs]


def test_where_only_returns_are_told_the_gates_follow_from_them(told: Told) -> None:
    """A fifth of what is poured goes back: 1.2 / 0.8 = 1.5 kg."""
    one, = told("procedure", "cast-foot", "casting yield", (", amount: 1.5 kg per piece", ""),
                ("{scrap: 20 %}", "{scrap: 20 %, returns: 20 %}"))
    assert said(one).startswith("For each good “Foot” 1.95 kg")


def test_less_metal_than_the_part_weighs_is_a_fault_at_its_line(tmp_path: Path) -> None:
    found = read(tmp_path, FOUNDRY.replace("1.5 kg per piece", "0.9 kg per piece")).faults
    assert [(fault.at.path, fault.at.line) for fault in found] == [("procedures/foot/cast-foot.yml", 4)]
    assert "metal with its gates (kg) must be at least the part, 1.2" in found[0].message


def test_heat_of_a_full_pot(told: Told) -> None:
    """40 kg x (450 x (505 - 20) + 120000) J = 13.53 MJ = 3.76 kWh; by 40 kW, 5.6 min."""
    one, = told("procedure", "cast-foot", "heat to melt", ("490..520 °C", "505 °C"))
    assert "takes up about 3.8 kWh" in said(one) and "5.6 min" in said(one)
    assert ("cold metal", "assumed: 20 °C") in [(i.name, i.written.replace("\u00a0", " ")) for i in one.inputs]
    assert "swallows more" in one.caution


def test_a_charge_is_brought_to_its_middle(told: Told) -> None:
    """20 kg of 11 % and 20 kg of 10 % are 10.5 %; 0.2 kg of aluminium are missing, and 1 kg of it adds 0.89."""
    one, = told("material", "zinc-eleven", "charge make-up")
    assert "comes to 10.5 % aluminium" in said(one)
    assert "20 kg (44 lb) of returns and 220 g of pure aluminium" in said(one)


def test_casts_a_day(told: Told) -> None:
    """(7 h - 1 h) / 6 min = 60."""
    one, = told("procedure", "cast-foot", "casts a day")
    assert said(one) == ("A day of 7 h, 1 h of it for getting ready, gives at most 60 castings from one mould; "
                         "by hand about 50 are common.")


@pytest.mark.parametrize(("changes", "kind", "id_", "write"), [
    ((("settings: {casting temperature: 490..520 °C}", "because: It must."),), "procedure", "cast-foot",
     "casting temperature"),
    ((("sizes: {base: 160 mm, mass: 1.2 kg}", "sizes: {base: 160 mm}"),), "part", "foot", "mass"),
    ((("  shrinkage: 1.3 %\n", ""),), "part", "foot", "shrinkage"),
    (((", amount: 1.5 kg per piece", ""),), "procedure", "cast-foot", "amount"),
    ((("time: {setup: 1 h, each: 6 min}\n", ""),), "procedure", "cast-foot", "each"),
])
def test_a_missing_line_is_asked_for(
    tmp_path: Path, changes: tuple[tuple[str, str], ...], kind: str, id_: str, write: str
) -> None:
    notebook = FOUNDRY
    for old, new in changes:
        notebook = notebook.replace(old, new)
    found = read(tmp_path, notebook).figures.get((kind, id_), ())
    assert any(write in one.write for one in found if isinstance(one, Missing))


def test_a_shop_that_pours_nothing_hears_nothing_of_it(tmp_path: Path) -> None:
    grinding = "=== procedures/foot/grind-foot.yml\nprocedure: grind-foot\ntitle: Grind\nsteps: Grind it.\n"
    found = read(tmp_path, grinding)
    assert not found.figures and not found.faults
