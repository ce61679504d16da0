"""Two ways of making a thing are never added up; what the shop makes or gets back is not bought.

A chandlery: tapers are dipped or poured, in winter with harder wax; drips and broken tapers go back into the vat.
"""

from __future__ import annotations

from pathlib import Path

import pytest
from shops import batch, shop

from site_builder.batch.batch import Batch, Undecided, Wanted
from site_builder.batch.side_by_side import side_by_side
from site_builder.batch.used_up import UsedUp, used_up
from site_builder.batch.variant import chosen_for
from site_builder.figures.batch_orders import decided
from site_builder.figures.batch_words import amount_up, figure_up

TAPERS = """\
=== procedures/shop.yml
shop: tapers
title: Tapers
products: {taper: {title: Taper, of: {wick: 1}, material: wax}}
parts: {wick: {title: Wick, supplier: Anselby Wicks}}
variants: {method: [dipped, poured]}
=== procedures/taper/dip.yml
procedure: dip
title: Dip the tapers
part: taper
for: {method: dipped}
materials: {material: wax, amount: 40 g per piece}
time: 3 min
steps: Dip it.
=== procedures/taper/pour.yml
procedure: pour
title: Pour the tapers
part: taper
for: {method: poured}
materials: {material: wax, amount: 60 g per piece}
time: 1 min
steps: Pour it.
=== tools/materials/wax.yml
material: wax
title: Wax
"""


def ways(text: str, folder: Path, pieces: int = 100, **chosen: str) -> list[tuple[Batch, UsedUp]]:
    found = shop(text, folder)
    nb = found.notebook
    wanted = Wanted("taper", pieces, {**chosen_for(nb, "taper"), **chosen})
    batches = side_by_side(nb, found.route, found.reckoning, wanted)
    return [(one, used_up(nb, found.reckoning, one)) for one in batches]


def minutes(one: Batch) -> float:
    return float(sum(leg.hands.most for leg in one.legs)) / 60


def grams(one: UsedUp) -> list[tuple[str, float, float]]:
    return [(row.id, round(float(row.amount.least) * 1000, 6), round(float(row.amount.most) * 1000, 6))
            for row in one.materials]


def test_two_ways_stand_side_by_side_and_are_never_added_up(tmp_path: Path) -> None:
    (dipped, wax), (poured, more) = ways(TAPERS, tmp_path)
    assert (dipped.wanted.way, minutes(dipped), grams(wax)) == ({"method": "dipped"}, 300, [("wax", 4000, 4000)])
    assert (poured.wanted.way, minutes(poured), grams(more)) == ({"method": "poured"}, 100, [("wax", 6000, 6000)])


def test_a_way_that_is_chosen_stands_alone(tmp_path: Path) -> None:
    [(poured, _)] = ways(TAPERS, tmp_path, method="poured")
    assert (minutes(poured), poured.wanted.way, [leg.leg.id for leg in poured.legs]) == (100, {}, ["pour"])


def test_who_asks_for_one_batch_is_told_what_to_choose(tmp_path: Path) -> None:
    found = shop(TAPERS, tmp_path)
    with pytest.raises(Undecided, match="the way it is made must be chosen \\(method: dipped or poured\\)") as problem:
        batch(found, "taper", 100)
    assert problem.value.open == {"method": ("dipped", "poured")}


def test_a_choice_that_changes_nothing_is_not_asked_for(tmp_path: Path) -> None:
    lines = ("time: [{each: 2 min, for: {method: dipped}}, {each: 2 min, for: {method: poured}}]\n"
             "materials: {material: stearin, by: hardness, amount: {soft: 1 g per piece, hard: 2 g per piece}}\n"
             "steps: Go.")
    (soft, _), (hard, _) = ways(STEPS.replace("{lines}", lines), tmp_path)
    assert (soft.wanted.way, hard.wanted.way) == ({"hardness": "soft"}, {"hardness": "hard"})


STEPS = TAPERS[:TAPERS.index("=== procedures/taper/dip.yml")] + """\
=== procedures/taper/make.yml
procedure: make
title: Make the tapers
part: taper
{lines}
=== tools/materials/wax.yml
material: wax
title: Wax
=== tools/materials/stearin.yml
material: stearin
title: Stearin
"""


def test_rows_of_a_table_are_told_each_by_itself(tmp_path: Path) -> None:
    lines = "materials: {material: wax, by: method, amount: {dipped: 2 g per piece, poured: 3 g per piece}}\nsteps: Go."
    (_, dipped), (_, poured) = ways(STEPS.replace("{lines}", lines), tmp_path)
    assert (grams(dipped), grams(poured)) == ([("wax", 200, 200)], [("wax", 300, 300)])


def test_materials_and_times_of_a_step_hold_only_where_the_step_does(tmp_path: Path) -> None:
    lines = ("steps:\n  - {do: Dip., for: {method: dipped}, time: 2 min,"
             " materials: {material: wax, amount: 1 g per piece}}"
             "\n  - {do: Pour., for: {method: poured}, time: 5 min, wait: min 1 h,"
             " materials: {material: wax, amount: 4 g per piece}}"
             "\n  - {do: Trim., time: 1 min}")
    (dipped, wax), (poured, more) = ways(STEPS.replace("{lines}", lines), tmp_path)
    assert (minutes(dipped), grams(wax)) == (300, [("wax", 100, 100)])
    assert (minutes(poured), grams(more)) == (600, [("wax", 400, 400)])
    assert (dipped.legs[0].standing.most, float(poured.legs[0].standing.least)) == (0, 3600)


FOUND = """\
steps:
  - {id: look, do: Look at it., time: 1 min, finds: {skin: {smooth: Light runs along it., cracked: It stops.}}}
  - {do: Polish it., for: {skin: smooth}, time: 1 min}
  - {do: Dip it again., for: {skin: cracked}, time: 4 min, materials: {material: wax, amount: 5 g per piece}}"""


def test_what_the_work_finds_out_piece_by_piece_reaches_from_the_least_to_the_most(tmp_path: Path) -> None:
    [(one, used)] = ways(STEPS.replace("{lines}", FOUND), tmp_path)
    [leg] = one.legs
    assert (float(leg.hands.least) / 60, float(leg.hands.most) / 60) == (200, 500)
    assert grams(used) == [("wax", 0, 500)]


def test_one_value_that_is_named_stands_beside_none_of_them(tmp_path: Path) -> None:
    lines = "materials: {material: stearin, for: {season: summer}, amount: 7 g per piece}\nsteps: Go."
    (summer, more), (other, none) = ways(STEPS.replace("{lines}", lines), tmp_path)
    assert (summer.wanted.way, grams(more)) == ({"season": "summer"}, [("stearin", 700, 700)])
    assert (other.wanted.way, grams(none)) == ({"season": "none of these"}, [])


# --- what is bought -----------------------------------------------------------------------------------


def test_what_goes_back_into_the_vat_is_not_bought_again(tmp_path: Path) -> None:
    """100 tapers of 50 g, a fifth of each runs off and goes back: 5 kg taken, 1 kg back, 4 kg new (mass balance)."""
    lines = "materials: {material: wax, amount: 50 g per piece}\nyield: {scrap: 0 %, returns: 20 %}\nsteps: Go."
    [(_, used)] = ways(STEPS.replace("{lines}", lines), tmp_path)
    [wax] = used.materials
    assert [round(float(one.most), 6) for one in (wax.amount, wax.back, wax.new)] == [5, 1, 4]


def test_broken_and_warming_pieces_go_back_whole_and_what_burns_off_is_new(tmp_path: Path) -> None:
    """By hand: 10 thrown back of n; of the others a tenth is lost; a fifth of the good runs off; 2 % burns off."""
    lines = ("materials: {material: wax, amount: 50 g per piece}\nyield: {scrap: 10 %, returns: 20 %}\nsteps:\n"
             "  - {do: Warm the mould., repeat: {until: It runs., times: 10}, yield: {scrap: 100 %, returns: 100 %}}")
    text = STEPS.replace("{lines}", lines).replace("title: Wax\n", "title: Wax\nproperties: {melt loss: 2 %}\n")
    [(one, used)] = ways(text, tmp_path)
    [wax], started = used.materials, float(one.legs[0].pieces)
    taken = started * 0.05
    stays = (started - 10) * 0.9 * 0.05 * 0.8
    assert float(wax.amount.most) == pytest.approx(taken)
    assert float(wax.back.most) == pytest.approx(taken - stays)
    assert float(wax.new.most) == pytest.approx(taken / 0.98 - (taken - stays))


def test_returns_are_of_what_the_part_is_made_of_and_of_nothing_else(tmp_path: Path) -> None:
    lines = ("materials: [{material: wax, amount: 50 g per piece}, {material: stearin, amount: 5 g per piece}]\n"
             "yield: {scrap: 0 %, returns: 20 %}\nsteps: Go.")
    [(_, used)] = ways(STEPS.replace("{lines}", lines), tmp_path)
    assert [(row.id, round(float(row.new.most), 6)) for row in used.materials] == [("wax", 4), ("stearin", 0.5)]


def test_what_the_shop_makes_itself_is_not_bought(tmp_path: Path) -> None:
    text = STEPS.replace("{lines}", "materials: {material: wax, amount: 50 g per piece}\nsteps: Go.").replace(
        "parts: {", "parts: {block: Block, ") + """\
=== procedures/shared/render.yml
procedure: render
title: Render the wax
makes: [wax, block, wick]
steps: Melt the combs.
"""
    [(one, used)] = ways(text, tmp_path)
    assert used.materials[0].made == ("render",)
    assert (one.bought, one.made_beside) == ((), (("wick", 100),))


@pytest.mark.parametrize(("value", "up"), [
    (0, "0"), (2.0, "2"), (2.01, "2.1"), (29.6, "30"), (211, "220"), (0.041, "0.041"), (0.0412, "0.042"),
    (12_010, "13,000"), (100, "100"),
])
def test_what_is_bought_is_rounded_up(value: float, up: str) -> None:
    assert figure_up(value) == up


def test_whole_sheets_are_bought(tmp_path: Path) -> None:
    lines = "materials: {material: wax, amount: 1 piece per 8 pieces}\nsteps: Go."
    found = shop(STEPS.replace("{lines}", lines), tmp_path)
    [row] = used_up(found.notebook, found.reckoning, batch(found, "taper", 9)).materials
    assert amount_up(row.amount, row.unit).split("\u00a0")[0] == "2"


# --- orders -------------------------------------------------------------------------------------------

ORDER = """\
=== procedures/orders/fair.yml
order: fair
title: For the fair
product: taper
pieces: 100
due: 2026-06-01
"""


def of_order(lines: str, folder: Path) -> list[tuple[int, dict[str, str], float]]:
    found = shop(TAPERS + ORDER + lines, folder)
    batches = found.batches["fair"]
    assert isinstance(batches, tuple)
    return [(one.wanted.pieces, dict(one.wanted.way), minutes(one)) for one in batches]


def test_an_order_may_be_split_and_the_rest_is_as_it_is_chosen(tmp_path: Path) -> None:
    told = of_order("chosen: {method: poured}\nsplit: [{chosen: {method: dipped}, pieces: 30}]\n", tmp_path)
    assert told == [(30, {"method": "dipped"}, 90), (70, {"method": "poured"}, 70)]


def test_an_order_that_leaves_the_way_open_tells_both_and_sums_neither(tmp_path: Path) -> None:
    assert of_order("", tmp_path) == [(100, {"method": "dipped"}, 300), (100, {"method": "poured"}, 100)]
    assert decided(shop(TAPERS + ORDER, tmp_path).batches["fair"]) == ()


def test_figures_of_an_open_order_name_the_way(tmp_path: Path) -> None:
    found = shop(TAPERS + ORDER, tmp_path)
    told = [figure.sentence for figure in found.figures["material", "wax"] if hasattr(figure, "sentence")]
    assert [one.split(":")[0] for one in told] == [
        "For 100 (For the fair, method dipped)", "For 100 (For the fair, method poured)"]




def test_what_is_left_until_it_is_due_names_the_share(tmp_path: Path) -> None:
    split = "split: [{chosen: {method: dipped}, pieces: 30}, {chosen: {method: poured}, pieces: 70}]\n"
    told = [one.sentence for one in shop(TAPERS + ORDER + split, tmp_path).figures["order", "fair"]
            if hasattr(one, "sentence") and one.sentence.startswith("Until")]
    assert [one.partition(" of hands. ")[2].partition(" takes")[0] for one in told] == [
        "The batch of 30, method dipped,", "The batch of 70, method poured,"]
