"""What a page prints: the unit written first, the other system beside it.

The converted figures were reckoned by hand from the exact factors (1 in = 25.4 mm, 1 lb = 0.45359237 kg,
°F = 9/5 °C + 32). Limits are rounded to their safe side, as toleranced sizes are when they are converted so
that nothing is accepted that the written limit refuses (the stricter method of ISO 370, from memory).
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from site_builder.quantity import bounds, for_people, parse_value

BOTH = [
    # No digit that nobody measured: what was written to the degree or to the gram is told no finer.
    ("430 °F", "430 °F", "221 °C"),
    ("about 1 g per 10 pieces", "about 1 g per 10 pieces", "about 0.035 oz per 10 pieces"),
    ("18 m/s", "18 m/s", "3500 ft/min"),
    ("15..20 m/s", "15 to 20 m/s", "2960 to 3930 ft/min"),
    ("from 18 to 12 m/s", "from 18 to 12 m/s", "from 3500 to 2400 ft/min"),
    ("max 32 m/s", "max 32 m/s", "max 6200 ft/min"),
    ("1-1/2 in", "1-1/2 in", "38.1 mm"),
    ("1/8 in", "1/8 in", "3.18 mm"),
    ("5 ft 3 in", "5 ft 3 in", "1.60 m"),
    ("0.10 mm", "0.10 mm", "0.0039 in"),
    ("max 0.1 mm", "max 0.1 mm", "max 0.0039 in"),
    ("min 3 mm", "min 3 mm", "min 0.119 in"),
    ("25 ±0.1 mm", "25 ±0.1 mm", "0.9843 ±0.0038 in"),
    ("32 +0.3/0 mm", "32 +0.3/0 mm", "1.2599 +0.0117/0 in"),
    ("42.0 +0.3/-0.1 mm", "42.0 +0.3/−0.1 mm", "1.6535 +0.0118/−0.0038 in"),
    ("±0.2 mm", "±0.2 mm", "±0.0078 in"),
    ("25 H7 mm", "25 H7 mm, 25.000 to 25.021 mm", "0.98426 to 0.98507 in"),
    (
        "aim 45 µm; min 30; max 70",
        "aim 45 µm, min 30 µm, max 70 µm",
        "aim 1.77 mil, min 1.19 mil, max 2.75 mil",
    ),
    ("min 25 mm; max 25.1", "min 25 mm, max 25.1 mm", "min 0.9843 in, max 0.9881 in"),
    ("377 °C", "377 °C", "711 °F"),
    ("-40 °C", "−40 °C", "−40 °F"),
    ("12..30 °C", "12 to 30 °C", "54 to 86 °F"),
    ("under 40 °C", "under 40 °C", "under 104 °F"),
    ("9 g per piece", "9 g per piece", "0.32 oz per piece"),
    ("2 mm per m", "2 mm per m", "0.024 in per ft"),
    ("4 A/dm²", "4 A/dm²", "37 A/ft²"),
    ("12.4 m²/L", "12.4 m²/L", "505 ft²/US gal"),
    (
        "max 1/3 of wall or 1 mm whichever is less",
        "max 1/3 of wall or 1 mm, whichever is less",
        "max 1/3 of wall or 0.0393 in, whichever is less",
    ),
    ("2 x wall plus 0.5 mm", "2 × wall plus 0.5 mm", "2 × wall plus 0.0197 in"),
    ("perhaps max 5 kg", "perhaps max 5 kg", "perhaps max 11.0 lb"),
    # a difference of temperature is no temperature
    ("5 K", "5 K", "9 °F difference"),
    ("5 °C difference", "5 °C difference", "9 °F difference"),
    ("180 ±5 °C", "180 ±5 °C", "356 ±9 °F"),
    ("±5 °C", "±5 °C", "±9 °F"),
    ("1 min per 4 °C", "1 min per 4 °C", "1 min per 7.2 °F"),
    ("180 °C plus 5 K", "180 °C plus 5 K", "356 °F plus 9 °F difference"),
    # the same in both systems
    ("2 h 30 min", "2 h 30 min", ""),
    ("about 1 belt per 120 pieces", "about 1 belt per 120 pieces", ""),
    ("perhaps 6 mo", "perhaps 6 months", ""),
    ("1 wk", "1 week", ""),
    ("85 dB(A)", "85 dB(A)", ""),
    ("30 ° angle", "30°", ""),
    ("2 parts by weight", "2 parts by weight", ""),
    ("80 % of post length", "80 % of post length", ""),
    ("max ask", "max not told yet", ""),
    ("ask", "not told yet", ""),
    ("same day", "the same day", ""),
    ("lowest that still cuts", "lowest that still cuts", ""),
    ("P80", "P80", ""),
]


@pytest.mark.parametrize(("text", "main", "other"), BOTH, ids=[row[0] for row in BOTH])
def test_the_written_unit_stands_first_and_the_other_system_beside_it(
    text: str, main: str, other: str
) -> None:
    shown = for_people(parse_value(text))
    assert (shown.main.replace("\u00a0", " "), shown.other.replace("\u00a0", " ")) == (main, other)


def test_number_and_unit_do_not_part_at_the_end_of_a_line() -> None:
    assert for_people(parse_value("2 h 30 min")).main == "2\u00a0h\u00a030\u00a0min"
    assert for_people(parse_value("12..30 °C")).main == "12 to 30\u00a0°C"


@pytest.mark.parametrize(
    ("text", "metric", "imperial"),
    [("25.4 mm", "25.4 mm", "1 in"), ("1 in", "25.4 mm", "1 in"), ("20 min", "20 min", "20 min"),
     ("5 mg", "5 mg", "5 mg")],
)  # fmt: skip
def test_a_shop_may_show_one_system_only(text: str, metric: str, imperial: str) -> None:
    for system, told in (("metric", metric), ("imperial", imperial)):
        shown = for_people(parse_value(text), "metric" if system == "metric" else "imperial")
        assert (shown.main.replace("\u00a0", " "), shown.other) == (told, "")


@given(
    st.decimals(0, 5000, places=3),
    st.decimals("0.001", 50, places=3),
    st.sampled_from(["mm", "in", "°C", "kg", "m/s"]),
)
@settings(max_examples=300, deadline=None)
def test_a_converted_range_never_admits_what_the_written_one_refuses(
    low: object, width: object, unit: str
) -> None:
    low_text, high_text = str(low), str(Fraction(str(low)) + Fraction(str(width)))
    high_text = f"{float(Fraction(high_text)):.3f}"
    written = bounds(parse_value(f"{low_text}..{high_text} {unit}"))
    other = for_people(parse_value(f"{low_text}..{high_text} {unit}")).other
    turned = bounds(parse_value(other.replace("\u00a0", " ").replace("−", "-")))
    assert written is not None and written.low is not None and written.high is not None
    assert turned is not None and turned.low is not None and turned.high is not None
    assert written.low <= turned.low <= turned.high <= written.high
