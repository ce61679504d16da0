"""Pieces to start and hours of a batch, as the notebook tells them."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest
from shops import batch, pegs, shop

from site_builder.batch.batch import hands_of_all, most_hours
from site_builder.batch.span import Span
from site_builder.formulas.batch_hours import weeks_of_work
from site_builder.formulas.errors import Impossible

STEP = "steps: Turn it.\n"
HOUR = 3600


def hours(span: Span | None) -> tuple[float, float]:
    assert span is not None
    return float(span.least / HOUR), float(span.most / HOUR)


# --- time ---------------------------------------------------------------------------------------------


def test_four_hundred_pieces_at_a_quarter_to_a_third_of_an_hour(tmp_path: Path) -> None:
    """Common practice: two and a half to three and a half working weeks for one person."""
    found = hands_of_all(pegs(f"time: 15..20 min\n{STEP}", tmp_path, 400).legs)
    least, most = weeks_of_work(found.least), weeks_of_work(found.most)
    assert least == 2.5
    assert 3 < most <= 3.5


def test_set_up_once_and_each_load_that_is_begun(tmp_path: Path) -> None:
    """Nine loads of twelve for a hundred: 1 h, 100 x 3 min, 9 x 20 min."""
    [leg] = pegs(f"load: max 12 pieces\ntime: {{setup: 1 h, each: 3 min, load: 20 min}}\n{STEP}", tmp_path).legs
    assert hours(leg.setup) == (1, 1)
    assert hours(leg.work) == (8, 8)


def test_what_is_done_again_makes_the_greater_end(tmp_path: Path) -> None:
    [leg] = pegs(f"time: 6 min\nyield: {{scrap: 0 %, rework: 10 %}}\n{STEP}", tmp_path).legs
    assert hours(leg.work) == (10, 11)


def test_two_people_for_an_hour_are_two_hours(tmp_path: Path) -> None:
    [leg] = pegs(f"hands: 2\ntime: {{lot: 1 h}}\n{STEP}", tmp_path).legs
    assert hours(leg.work) == (2, 2)


def test_work_by_lots_is_set_up_once_or_for_every_lot(tmp_path: Path) -> None:
    """Four lots of thirty; whether the set-up stays from lot to lot is not told. The time of a lot counts each time."""
    [leg] = pegs(f"per: lot\nload: max 30 pieces\ntime: {{setup: 30 min, lot: 1 h}}\n{STEP}", tmp_path).legs
    assert leg.lots == 4
    assert hours(leg.setup) == (0.5, 2)
    assert hours(leg.work) == (4, 4)


def test_shared_work_now_and_then_counts_beside_the_time_for_one(tmp_path: Path) -> None:
    """The wheel is dressed at the start and after 40 and 80 pegs: 3 x 10 min besides 100 x 3 min."""
    found = batch(shop("""\
=== procedures/shop.yml
shop: pegs
title: Pegs
products: {peg: Peg}
=== procedures/shared/dress.yml
procedure: dress
title: Dress the wheel
time: {lot: 10 min}
steps: Dress it.
=== procedures/peg/grind-peg.yml
procedure: grind-peg
title: Grind the peg
time: 3 min
steps:
  - {id: dress, use: dress, when: start; every 40 pieces, per: lot}
  - Grind it.
""", tmp_path), "peg", 100)
    [leg] = found.legs
    assert [(run.procedure, count) for run, count in leg.runs] == [("dress", 3)]
    assert hours(leg.work) == (5.5, 5.5)


def test_steps_tell_the_time_where_the_whole_does_not(tmp_path: Path) -> None:
    [leg] = pegs("steps:\n  - {do: Turn it., time: 2 min}\n  - {do: Part it off., time: 1 min}\n", tmp_path).legs
    assert hours(leg.work) == (5, 5)


def test_work_done_outside_is_nobodys_time_here(tmp_path: Path) -> None:
    lines = "where: the turner's\ntime: 6 min\nsteps:\n  - {do: Bring them., wait: aim 3 wk}\n"
    [leg] = pegs(lines, tmp_path).legs
    assert leg.work is None
    assert leg.standing.least == 21 * 24 * HOUR


def test_a_load_without_a_size_tells_no_time(tmp_path: Path) -> None:
    [leg] = pegs(f"time: {{load: 20 min}}\n{STEP}", tmp_path).legs
    assert leg.work is None


@pytest.mark.parametrize(("wait", "least", "most"), [
    ("about 60 min; min 45 min; max 5 d", 0.75, 1), ("max 7 d", 0, 0), ("max same day", 0, 0), ("min 14 h", 14, 14),
])
def test_how_long_they_must_stand(tmp_path: Path, wait: str, least: float, most: float) -> None:
    [leg] = pegs(f"steps:\n  - {{do: Turn it., wait: {wait}}}\n", tmp_path).legs
    assert hours(leg.standing) == (least, most)


def test_units_never_change_the_answer(tmp_path: Path) -> None:
    minutes = pegs(f"time: {{setup: 90 min, each: 3 min}}\n{STEP}", tmp_path / "a").legs[0]
    seconds = pegs(f"time: {{setup: 1 h 30 min, each: 180 s}}\n{STEP}", tmp_path / "b").legs[0]
    assert (minutes.setup, minutes.work) == (seconds.setup, seconds.work)


# --- pieces -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("good", "scrap", "confidence", "start"), [
    # Boost C++ libraries, output printed in the example of negative binomial sample sizes: more than 50, 500 failures
    (51, "10 %", 0.9, 60), (501, "50 %", 0.5, 1001),
    # nothing is lost
    (51, "0 %", 0.9, 51),
])
def test_pieces_to_start(tmp_path: Path, good: int, scrap: str, confidence: float, start: int) -> None:
    [part] = pegs(f"yield: {{scrap: {scrap}}}\n{STEP}", tmp_path, good, confidence).parts
    assert part.starts.started == start


def test_labels_through_three_steps(tmp_path: Path) -> None:
    """95, 84 and 88 % make 70.2 %: Minitab support pages, label example."""
    text = "=== procedures/shop.yml\nshop: s\ntitle: S\nproducts: {label: Label}\n"
    steps = (("print", "start of print", 5), ("laminate", "print", 16), ("cut", "laminate", 12))
    for name, before, lost in steps:
        after = "" if name == "print" else f"after: {before}\n"
        text += (f"=== procedures/label/{name}.yml\nprocedure: {name}\ntitle: {name}\n{after}"
                 f"yield: {{scrap: {lost} %}}\nsteps: Go.\n")
    [part] = batch(shop(text, tmp_path), "label", 700).parts
    assert part.starts.right_first == pytest.approx(0.702, abs=5e-4)
    come = [float(leg.pieces / part.starts.started) for leg in part.legs]
    assert come == pytest.approx([1, 0.95, 0.798], abs=1e-6)


def test_warming_castings_and_kept_samples_are_started_too(tmp_path: Path) -> None:
    """Three warming castings, and one broken in each of two lots of sixty."""
    [part] = pegs("""\
per: lot
load: max 60 pieces
steps:
  - {do: Pour warming pegs., yield: {scrap: 100 %}, repeat: {times: about 3; max 6}}
  - {do: Pour., keep: {what: One peg of each pour, amount: 1 piece per lot}}
""", tmp_path, 100).parts
    assert part.starts.started == 100 + 2 * 3 + 2 * 1
    assert part.legs[0].lost == 8


def test_a_strip_that_is_kept_is_no_piece(tmp_path: Path) -> None:
    [part] = pegs("steps:\n  - {do: Cut., keep: {what: A strip, amount: 1 piece per sheet}}\n", tmp_path).parts
    assert part.starts.started == 100


HINGE = """\
=== procedures/shop.yml
shop: hinges
title: Hinges
products: {hinge: {title: Hinge, of: {leaf: 2, pin: 1, screw: 6}}}
parts: {leaf: Leaf, pin: Pin, screw: {title: Screw, supplier: Drumlow}}
=== procedures/leaf/punch-leaf.yml
procedure: punch-leaf
title: Punch the leaf
yield: {scrap: 5 %}
time: 2 min
steps: Punch it.
=== procedures/pin/cut-pin.yml
procedure: cut-pin
title: Cut the pin
time: 30 s
steps: Cut it.
=== procedures/hinge/pin-hinge.yml
procedure: pin-hinge
title: Pin the hinge
yield: {scrap: 2 %}
time: 1 min
steps: Drive the pin home.
"""


def test_parts_are_made_for_the_wholes_that_are_begun(tmp_path: Path) -> None:
    found = batch(shop(HINGE, tmp_path), "hinge", 100)
    leaf, pin, hinge = (found.part(id_) for id_ in ("leaf", "pin", "hinge"))
    assert leaf is not None and pin is not None and hinge is not None
    assert hinge.starts.started > 100
    assert leaf.wanted == 2 * hinge.starts.started
    assert pin.starts.started == hinge.starts.started
    assert found.bought == (("screw", 6 * hinge.starts.started),)


def test_the_chance_is_shared_between_the_ways_that_lose(tmp_path: Path) -> None:
    """Two ways lose something: each gives enough in 97.5 %, so that both do in 95 %."""
    found = batch(shop(HINGE, tmp_path), "hinge", 100)
    assert [part.confidence for part in found.parts] == pytest.approx([0.95 ** 0.5] * 3)


def test_a_part_by_itself(tmp_path: Path) -> None:
    assert [part.part for part in batch(shop(HINGE, tmp_path), "leaf", 100).parts] == ["leaf"]


def test_the_three_that_cost_most(tmp_path: Path) -> None:
    found = batch(shop(HINGE, tmp_path), "hinge", 100)
    assert [leg.leg.id for leg in most_hours(found.legs, 2)] == ["punch-leaf", "pin-hinge"]


def test_more_confidence_never_needs_fewer(tmp_path: Path) -> None:
    found = shop(HINGE, tmp_path)
    started = [batch(found, "hinge", 100, chance).parts[-1].starts.started for chance in (0.5, 0.8, 0.95, 0.999)]
    assert started == sorted(started)
    assert started[0] < started[-1]


def test_only_the_variant_that_is_chosen_counts(tmp_path: Path) -> None:
    text = """\
=== procedures/shop.yml
shop: pegs
title: Pegs
products: {peg: {title: Peg, chosen: {wood: oak}}}
variants: {wood: {values: [oak, lime]}}
=== procedures/peg/turn-peg.yml
procedure: turn-peg
title: Turn the peg
time: [{each: 6 min, for: {wood: oak}}, {each: 3 min, for: {wood: lime}}]
yield: [{scrap: 10 %, for: {wood: lime}}, {scrap: 0 %, for: {wood: oak}}]
steps: Turn it.
"""
    [part] = batch(shop(text, tmp_path), "peg", 100).parts
    assert part.starts.started == 100
    assert hours(part.legs[0].work) == (10, 10)


# --- what cannot be -----------------------------------------------------------------------------------


@pytest.mark.parametrize(("line", "named"), [
    ("yield: {scrap: 120 %}", "share lost"), ("yield: {rework: 100 %}", "share done again"),
    ("time: -5 min", "time (s)"), ("load: max 0 pieces", "load (pieces)"),
])
def test_a_figure_that_cannot_be_is_told_at_its_line(tmp_path: Path, line: str, named: str) -> None:
    found = pegs(f"{line}\n{STEP}", tmp_path)
    [fault] = found.faults
    assert fault.message.startswith(named)
    assert (fault.at.path, fault.at.line) == ("procedures/peg/turn-peg.yml", 3)


@pytest.mark.parametrize(("pieces", "confidence"), [(0, 0.95), (10, 0.0), (10, 1.0)])
def test_a_batch_that_cannot_be(tmp_path: Path, pieces: int, confidence: float) -> None:
    with pytest.raises(Impossible):
        pegs(f"time: 1 min\n{STEP}", tmp_path, pieces, confidence)


def test_a_part_that_holds_itself_is_counted_once(tmp_path: Path) -> None:
    text = ("=== procedures/shop.yml\nshop: s\ntitle: S\nproducts: {a: {title: A, of: {b: 1}}}\n"
            "parts: {b: {title: B, of: {a: 1}}}\n=== procedures/b/m.yml\nprocedure: m\ntitle: M\nsteps: Go.\n")
    assert [part.part for part in batch(shop(text, tmp_path), "a", 10).parts] == ["b"]


def test_nothing_is_lost_where_nothing_is_told(tmp_path: Path) -> None:
    [leg] = pegs(STEP, tmp_path).legs
    assert leg.leg.scrap is None
    assert leg.pieces == Fraction(100)
    assert leg.leg.times is None
