"""The way of each part: whose work a procedure is, and what it takes of hands."""

from datetime import date
from fractions import Fraction
from pathlib import Path

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.example import write_example
from site_builder.notebook.way import account, lane_of, stands_after, ways, with_parts

CHAIR = """\
=== procedures/shop.yml
shop: chairs
title: Chairs
parts: {leg: Leg, seat: Seat}
products: {chair: {title: Chair, of: {leg: 4, seat: 1}}}
=== procedures/leg/turn-leg.yml
procedure: turn-leg
title: Turn the leg
time: {each: about 10 min}
yield: {scrap: 2 %}
steps:
  - Turn it.
  - {do: Stack it., wait: min 1 d}
=== procedures/leg/steam-leg.yml
procedure: steam-leg
title: Steam the leg
after: turn-leg
load: max 20 pieces
time: {load: 60 min}
yield: {scrap: 50 %, rework: 10 %}
steps:
  - {do: Fill the box., use: fill-the-box}
  - {do: The first leg warms the box., yield: {scrap: 100 %}}
=== procedures/shared/fill-the-box.yml
procedure: fill-the-box
title: Fill the box
steps: [Fill it.]
=== procedures/seat/saw-seat.yml
procedure: saw-seat
title: Saw the seat
steps:
  - {do: Saw it., time: 4 min}
  - {do: Round it., time: 3..5 min, hands: 2}
=== procedures/join/join-chair.yml
procedure: join-chair
title: Join the chair
part: [leg, seat]
after: [steam-leg, saw-seat]
time: ask
steps: [Join it.]
=== procedures/varnish.yml
procedure: cook-varnish
title: Cook varnish
steps: [Cook it.]
"""
MINUTE = Fraction(60)


def chairs(folder: Path) -> Analysis:
    write_example(CHAIR.replace("varnish.yml", "cook-varnish.yml"), folder)
    return analysis(folder, date(2026, 3, 2))


def test_every_procedure_lies_on_one_way_and_shared_ones_on_none(tmp_path: Path) -> None:
    found = chairs(tmp_path)
    assert ways(found.notebook, found.route) == {
        "leg": ("turn-leg", "steam-leg"), "seat": ("saw-seat",), "chair": ("join-chair",), "": ("cook-varnish",),
    }


def test_what_joins_all_the_parts_of_a_whole_lies_on_the_way_of_the_whole(tmp_path: Path) -> None:
    nb = chairs(tmp_path).notebook
    assert lane_of(nb, nb.procedures["join-chair"]) == "chair"


def test_a_load_shares_its_time_and_the_warming_up_is_no_loss_of_the_lot(tmp_path: Path) -> None:
    """10 min at the lathe, an hour for 20 in the box: 13 min. Of 100, 98 are turned well and half of them bent."""
    told = account(chairs(tmp_path).notebook, ("turn-leg", "steam-leg"))
    assert (told.least, told.most, told.of_hundred) == (13 * MINUTE, 13 * MINUTE, 49)
    assert (told.untimed, told.uncounted) == ((), ())


def test_steps_are_summed_where_the_whole_tells_no_time(tmp_path: Path) -> None:
    """4 min alone and 3 to 5 min for two: 10 to 14 min."""
    told = account(chairs(tmp_path).notebook, ("saw-seat",))
    assert (told.least, told.most) == (10 * MINUTE, 14 * MINUTE)
    assert told.uncounted == ("saw-seat",)


def test_a_whole_has_the_time_of_its_parts_in_it(tmp_path: Path) -> None:
    """Four legs of 13 min and a seat of 10 to 14: 62 to 66 min, and joining does not tell."""
    found = chairs(tmp_path)
    assert with_parts(found.notebook, ways(found.notebook, found.route), "chair") == (62 * MINUTE, 66 * MINUTE, False)


def test_a_part_that_holds_itself_is_counted_once(tmp_path: Path) -> None:
    write_example("=== procedures/shop.yml\nshop: s\ntitle: S\nparts: {a: {title: A, of: {b: 1}}, "
                  "b: {title: B, of: {a: 1}}}\n", tmp_path)
    nb = analysis(tmp_path, date(2026, 3, 2)).notebook
    assert with_parts(nb, {}, "a") == (0, 0, True)


def test_how_long_it_stands_is_told_by_the_last_step_too(tmp_path: Path) -> None:
    nb = chairs(tmp_path).notebook
    assert [str(limit.written) for limit in stands_after(nb.procedures["turn-leg"])] == ["min 1 d"]
