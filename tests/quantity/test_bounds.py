"""The figures of values: by hand from what was written."""

from __future__ import annotations

from fractions import Fraction

import pytest

from site_builder.quantity import Bounds, bounds, parse_value


def told(text: str, **given: str) -> Bounds:
    names = {name.replace("_", " "): told(value) for name, value in given.items()}
    found = bounds(parse_value(text), names)
    assert found is not None
    return found


def shown(found: Bounds) -> list[str | None]:
    """Low, high, lowest and highest aim in the unit written."""
    figures = (found.low, found.high, found.aim_low, found.aim_high)
    return [None if figure is None else str(found.shown(figure)) for figure in figures]


@pytest.mark.parametrize(
    ("text", "figures"),
    [
        ("18 m/s", [None, None, "18", "18"]),
        ("25 ±0.1 mm", ["249/10", "251/10", "25", "25"]),
        ("25 +0.2/0 mm", ["25", "126/5", "25", "25"]),
        ("180 ±5 °F", ["175", "185", "180", "180"]),
        ("25 H7 mm", ["25", "25021/1000", None, None]),
        ("12..30 °C", ["12", "30", None, None]),
        ("max 0.1 mm", [None, "1/10", None, None]),
        ("aim 45 µm; min 30; max 70", ["30", "70", "45", "45"]),
        ("aim 40..50 µm; min 30; max ask", ["30", None, "40", "50"]),
        ("about 3..4 min; max 6", [None, "6", "3", "4"]),
        ("from 18 to 12 m/s", ["12", "18", None, None]),
        ("max 1 mm or 0.05 cm whichever is less", [None, "1/2", None, None]),
        ("min 1 mm or 0.05 cm whichever is more", ["1", None, None, None]),
        ("40 °F", [None, None, "40", "40"]),
        ("2 in plus 5.08 mm", [None, None, "11/5", "11/5"]),
        ("20 °C minus 5 K", [None, None, "15", "15"]),
    ],
)
def test_figures_of_a_value(text: str, figures: list[str | None]) -> None:
    assert shown(told(text)) == figures


def test_base_units_are_metres_seconds_and_degrees_celsius() -> None:
    assert told("25 mm").aim_low == Fraction("0.025")
    assert told("2 h 30 min").aim_low == 9000
    assert told("212 °F").aim_low == 100
    assert told("9 °F difference").aim_low == 5


def test_min_and_max_include_their_figure_and_over_and_under_do_not() -> None:
    assert told("max 40 °C").accepts(Fraction(40))
    assert not told("under 40 °C").accepts(Fraction(40))
    assert told("min 3 pieces").accepts(Fraction(3))
    assert not told("over 3 pieces").accepts(Fraction(3))
    assert told("12..30 °C").accepts(Fraction(12)) and told("12..30 °C").accepts(Fraction(30))
    assert not told("12..30 °C").accepts(Fraction("30.01"))


def test_about_is_rough_and_refuses_nothing() -> None:
    found = told("about 6 min")
    assert found.rough and not found.limited


def test_a_deviation_alone_is_relative_and_of_temperatures_a_difference() -> None:
    found = told("±9 °F")
    assert found.relative and found.kind == "temperature difference"
    assert (found.low, found.high) == (-5, 5)


def test_a_side_without_a_figure_is_remembered_as_untold() -> None:
    assert told("min 4 h; max same day").high_untold
    assert told("min 30 µm; max ask").high_untold
    assert told("min 1 mm; max 1/3 of wall").high_untold
    assert not told("min 30 µm").high_untold


@pytest.mark.parametrize(
    "text", ["ask", "some min", "matt", "lowest that still cuts", "same day", "max wall", "max ask"]
)
def test_what_has_no_figure_has_no_bounds(text: str) -> None:
    assert bounds(parse_value(text)) is None


def test_a_share_of_another_value_is_of_its_aim() -> None:
    assert shown(told("max 1/3 of wall or 1.5 mm whichever is less", wall="3 ±0.3 mm")) == [
        None,
        "1",
        None,
        None,
    ]
    assert shown(told("max 1/3 of wall or 1.5 mm whichever is less", wall="9 mm")) == [
        None,
        "3/2",
        None,
        None,
    ]
    assert shown(told("max pot life", pot_life="about 5 min")) == [None, "5", None, None]


def test_a_range_bounds_another_value_by_its_stricter_end() -> None:
    assert shown(told("max pot life", pot_life="4..6 min"))[1] == "4"
    assert shown(told("min open time", open_time="4..6 min"))[0] == "6"


def test_a_name_alone_takes_the_other_value_over_whole() -> None:
    assert told("pot life", pot_life="4..6 min") == told("4..6 min")


def test_sums_are_worst_case() -> None:
    # bore 25.0..25.2 and shaft 24.7..24.9 leave at least 0.1 and at most 0.5
    assert shown(told("bore minus shaft", bore="25 +0.2/0 mm", shaft="24.8 ±0.1 mm")) == [
        "1/10",
        "1/2",
        "1/5",
        "1/5",
    ]
    assert shown(told("2 x wall plus 0.5 mm", wall="3 ±0.1 mm")) == ["63/10", "67/10", "13/2", "13/2"]
    assert shown(told("80 % of post length", post_length="100..120 mm")) == ["80", "96", None, None]


def test_products_and_quotients_know_their_kind() -> None:
    travel = told("strokes x feed", strokes="5 strokes", feed="2 mm per stroke")
    assert (travel.kind, travel.aim_low) == ("length", Fraction(1, 100))
    strokes = told("travel / feed", travel="9..11 mm", feed="2 mm per stroke")
    assert (strokes.kind, strokes.low, strokes.high) == ("count", Fraction("4.5"), Fraction("5.5"))
    assert bounds(parse_value("travel / feed"), {"travel": told("9 mm"), "feed": told("-1..1 mm")}) is None


def test_products_bind_before_sums() -> None:
    assert (
        shown(told("wall plus strokes x feed", wall="3 mm", strokes="5 strokes", feed="2 mm per stroke"))[2]
        == "13"
    )
