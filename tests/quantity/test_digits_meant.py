"""Letters for digits and numbers in words are told with the figures; designations and names stay what they are."""

from __future__ import annotations

import pytest

from site_builder.quantity import NotationError, parse_value

NOUNS = frozenset({"piece", "pieces", "layer", "layers"})


@pytest.mark.parametrize(("written", "meant"), [
    ("O.05 mm", "0.05 mm"), ("4 ±O.4 mm", "4 ±0.4 mm"), ("16O ±0.5 mm", "160 ±0.5 mm"), ("max l2 mm", "max 12 mm"),
    ("1 h 2O min", "1 h 20 min"), ("lO..2O mm", "10..20 mm"), ("5B mm", "58 mm"), ("l.5 kg", "1.5 kg"),
    ("eight mm", "8 mm"), ("min eight mm", "min 8 mm"), ("about three minutes", "about 3 minutes"),
    ("one hundred and twenty-eight mm", "128 mm"), ("two and a half mm", "2-1/2 mm"),
    ("two hundred thousand rev/min", "200000 rev/min"), ("ten to twelve °C", "10 to 12 °C"),
    ("aim eight mm; min six mm", "aim 8 mm; min 6 mm"),
])  # fmt: skip
def test_a_figure_in_letters_is_told_in_digits(written: str, meant: str) -> None:
    with pytest.raises(NotationError) as told:
        parse_value(written, NOUNS)
    assert told.value.fix == meant
    parse_value(meant, NOUNS)


@pytest.mark.parametrize(("written", "meant"), [("two hundred", "200"), ("1O", "10"), ("two", "2"), ("a dozen", None)])
def test_a_count_needs_no_unit(written: str, meant: str | None) -> None:
    if meant is None:
        parse_value(written, NOUNS, True)
        return
    with pytest.raises(NotationError) as told:
        parse_value(written, NOUNS, True)
    assert told.value.fix == meant


@pytest.mark.parametrize("written", [
    "P8O", "O1 steel", "S235", "25 H7 mm", "I beam", "gold I", "class two", "gain of one arm", "two-part", "one",
    "max one layer", "max 2 x one layer", "max 1/2 of [two mm]", "two or three strokes", "B5 mm", "O", "10 l", "10 Ω",
])  # fmt: skip
def test_designations_and_names_stay_what_they_are(written: str) -> None:
    parse_value(written, NOUNS)
