"""What a cue most likely is; talk told from what is to be kept; things that are named."""

from __future__ import annotations

from site_builder.tellings.cue import Cue
from site_builder.tellings.kinds import understand
from site_builder.tellings.names import mentions
from tests.tellings.kind_phrases import PHRASES
from tests.tellings.measure import OTHER_TRADES, added_up, measured

FLOORS = {
    "quantities right": 85.0,
    "first kind among the marked": 74.0,
    "talk told from content": 95.5,
    "takings back recognised": 99.0,
}
CEILINGS = {"quantities wrong": 3.5, "found beside the marks": 1.0}
OF_OTHER_TRADES = {
    "developed": {"quantities right": 96.0, "first kind among the marked": 83.0},
    "measured": {"quantities right": 75.0, "first kind among the marked": 77.0},
}


def test_phrases_of_other_trades() -> None:
    understood = understand([Cue(f"c{n}", text) for n, (text, _) in enumerate(PHRASES)])
    right = sum(one.kinds[0] in kinds.split() for one, (_, kinds) in zip(understood, PHRASES, strict=True))
    talk = sum(one.is_talk == (kinds.split()[0] == "talk") for one, (_, kinds) in zip(understood, PHRASES, strict=True))
    assert right / len(PHRASES) > 0.82 and talk / len(PHRASES) > 0.93


def test_whole_tellings_are_understood_as_well_as_before() -> None:
    figures = measured()
    total = sum(list(figures.values())[1:], next(iter(figures.values())))
    shares = total.shares
    assert {key: shares[key] for key, floor in FLOORS.items() if shares[key] < floor} == {}
    assert {key: shares[key] for key, ceiling in CEILINGS.items() if shares[key] > ceiling} == {}


def test_short_tellings_of_twenty_other_trades_are_understood_as_well_as_before() -> None:
    for part, floors in OF_OTHER_TRADES.items():
        shares = added_up(OTHER_TRADES / part).shares
        assert {key: shares[key] for key, floor in floors.items() if shares[key] < floor} == {}, part


def test_a_listener_who_asks_is_no_source() -> None:
    cues = [
        Cue("a", "You put the loaf on the peel and slide it in.", speaker="Oda"),
        Cue("b", "And how long does it bake?", speaker="Tam"),
        Cue("c", "Forty minutes at two hundred Celsius.", speaker="Oda"),
    ]
    assert [one.is_talk for one in understand(cues)] == [False, True, False]


def test_every_kind_that_something_speaks_for_is_offered() -> None:
    (one,) = understand([Cue("a", "Never salt on top of the yeast, because it kills it.")])
    assert {"never", "reason"} <= set(one.kinds[:3]) and one.kinds[-1] == "talk"


THINGS = {
    "bench-knife": ("bench knife",),
    "bread-knife": ("bread knife",),
    "peel": ("peel", "wooden peel"),
    "rye-flour": ("rye flour",),
}


def test_things_of_the_notebook_are_found_by_name() -> None:
    text = "Take the bench knife, dust the peel with rye flour."
    assert [(one.id, text[one.start : one.end], one.whole) for one in mentions(text, THINGS)] == [
        ("bench-knife", "bench knife", True),
        ("peel", "peel", True),
        ("rye-flour", "rye flour", True),
    ]


def test_a_short_name_counts_only_where_it_means_one_thing() -> None:
    assert [(one.id, one.whole) for one in mentions("More flour. Where is the knife?", THINGS)] == [
        ("rye-flour", False)
    ]
