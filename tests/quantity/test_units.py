"""Units against Pint, whose definitions follow NIST SP 811 and the CODATA tables."""

from __future__ import annotations

import subprocess
import sys
from fractions import Fraction

import pint
import pytest

from site_builder.quantity import (
    NotationError,
    Quantity,
    find_unit,
    for_people,
    parse_value,
    quantity_in,
    same_kind,
    show_value,
)
from site_builder.quantity.listed import UNITS, Listed
from site_builder.quantity.nouns import plural
from site_builder.quantity.units import LISTED
from site_builder.views.typeset import typeset

# Pint's names of the base units; what is not here is measured by itself, and nothing outside knows it
BASES = {
    "length": "m", "time": "s", "mass": "kg", "volume": "m**3", "force": "N", "torque": "N*m", "pressure": "Pa",
    "energy": "J", "power": "W", "current": "A", "charge": "A*s", "voltage": "V", "resistance": "ohm",
    "conductance": "siemens", "frequency": "Hz", "revolution": "revolution", "illuminance": "lux",
    "ratio": "dimensionless", "angle": "degree", "temperature difference": "kelvin", "temperature": "degC",
}
BY_ITSELF = {"hardness", "sound level", "acidity", "working time", "part", "part by weight", "part by volume"}
# units made of several: ours, Pint's, and Pint's name of our base unit
MADE = [
    ("mm²", "mm**2", "m**2"), ("in3", "inch**3", "m**3"), ("ft/min", "foot/minute", "m/s"),
    ("mi/h", "mile/hour", "m/s"), ("lb/in³", "pound/inch**3", "kg/m**3"), ("oz/gal", "ounce/gallon", "kg/m**3"),
    ("A/dm²", "A/dm**2", "A/m**2"), ("ft²/gal", "foot**2/gallon", "1/m"), ("g/m²", "g/m**2", "kg/m**2"),
    ("mm/min", "mm/minute", "m/s"), ("°C/min", "delta_degC/minute", "kelvin/s"),
]


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry()


def worth(registry: pint.UnitRegistry, theirs: str, base: str, number: float = 1) -> float:
    magnitude: float = registry.Quantity(number, registry.parse_units(theirs)).to(base).magnitude
    return magnitude


@pytest.mark.parametrize("row", UNITS, ids=lambda row: row.symbol)
def test_every_unit_of_the_table_is_worth_what_pint_says(registry: pint.UnitRegistry, row: Listed) -> None:
    assert bool(row.name) is (row.kind not in BY_ITSELF), "what it is called outside stands beside it"
    unit = LISTED[row.symbol]
    if row.name:
        for number in (1, 25):
            ours = float(number * unit.factor + unit.offset)
            assert ours == pytest.approx(worth(registry, row.name.replace(" ", "*"), BASES[row.kind], number), rel=1e-9)


@pytest.mark.parametrize("row", UNITS, ids=lambda row: row.symbol)
def test_every_unit_of_the_table_is_read_converted_and_shown(row: Listed) -> None:
    for written in (row.symbol, *row.also):
        value = parse_value(f"25 {written if written != 'gal' else 'US gal'}")
        assert isinstance(value.what, Quantity) and value.what.parts[0].unit is LISTED[row.symbol]
        assert parse_value(show_value(value)) == value
        told = for_people(value)
        assert told.main.startswith("25") and (bool(told.other) is bool(row.other))
        if not row.loose:
            assert " " not in typeset(f"25 {row.symbol}").removesuffix(row.symbol)
    other = find_unit(row.other) if row.other else None
    assert not row.other or (other is not None and other.kind == row.kind and other.system != row.system)
    for word in row.spoken.split():
        assert f"25 {row.symbol}" in told_instead(f"25 {word}")


def told_instead(text: str) -> str:
    with pytest.raises(NotationError) as caught:
        parse_value(text)
    return str(caught.value)


@pytest.mark.parametrize(("ours", "theirs", "base"), MADE, ids=[row[0] for row in MADE])
def test_a_made_unit_is_worth_what_pint_says(registry: pint.UnitRegistry, ours: str, theirs: str, base: str) -> None:
    unit = find_unit(ours)
    assert unit is not None
    assert float(unit.factor) == pytest.approx(worth(registry, theirs, base), rel=1e-9)


@pytest.mark.parametrize("celsius", [-273.15, -40, 0, 37, 180])
def test_temperatures_convert_as_pint_says(registry: pint.UnitRegistry, celsius: float) -> None:
    what = parse_value(f"{celsius} °C").what
    assert isinstance(what, Quantity)
    fahrenheit = registry.Quantity(celsius, "degC").to("degF").magnitude
    assert float(quantity_in(what, "°F")) == pytest.approx(fahrenheit, abs=1e-9)


@pytest.mark.parametrize(
    ("text", "symbol", "figure"),
    [
        ("2 h 30 min", "min", "150"), ("5 ft 3 in", "in", "63"), ("1-1/2 in", "mm", "38.1"),
        ("-1 ft 6 in", "in", "-18"), ("212 °F", "°C", "100"), ("9 °F difference", "K", "5"),
        ("18 m/s", "m/min", "1080"), ("1 mil", "µm", "25.4"), ("50 %", "ppm", "500000"),
        ("20 mil", "thou", "20"),
    ],
)  # fmt: skip
def test_conversion_is_exact(text: str, symbol: str, figure: str) -> None:
    what = parse_value(text).what
    assert isinstance(what, Quantity)
    assert quantity_in(what, symbol) == Fraction(figure)


@pytest.mark.parametrize(
    ("text", "symbol"),
    [("3 mm", "kg"), ("20 °C", "K"), ("5 K", "°C"), ("3 passes", "pieces"), ("90 HB", "HV")],
)
def test_one_kind_cannot_be_told_in_another(text: str, symbol: str) -> None:
    what = parse_value(text).what
    assert isinstance(what, Quantity)
    with pytest.raises(NotationError) as caught:
        quantity_in(what, symbol)
    assert caught.value.code == "unit-wrong-kind"


@pytest.mark.parametrize(
    ("a", "b", "same"),
    [
        ("3 mm", "max 1 in", True), ("20 °C", "5 K", False), ("±5 °C", "5 K", True),
        ("3 pieces", "4 strokes", False),
        ("90 HB", "90 HV", False), ("9 g per piece", "1 oz per piece", True), ("9 g per piece", "9 g", False),
        ("2 parts by weight", "2 parts by volume", False), ("85 dB(A)", "85 dB(C)", False),
        ("8 h/day", "50 %", False),
        ("matt", "matt", False), ("2 mm per m", "0.2 %", True),
    ],
)  # fmt: skip
def test_only_like_may_be_compared(a: str, b: str, same: bool) -> None:
    assert same_kind(parse_value(a), parse_value(b)) is same


def test_a_bare_count_fits_every_noun() -> None:
    assert same_kind(parse_value("3", bare_count=True), parse_value("4 strokes"))


@pytest.mark.parametrize(
    ("one", "many"),
    [("pass", "passes"), ("piece", "pieces"), ("batch", "batches"), ("box", "boxes"),
     ("assembly", "assemblies"),
     ("tray", "trays"), ("person", "people"), ("tooth", "teeth"), ("test piece", "test pieces")],
)  # fmt: skip
def test_plurals(one: str, many: str) -> None:
    assert plural(one) == many


def test_reading_values_does_not_load_pint() -> None:
    code = "import sys; import site_builder.quantity as q; q.for_people(q.parse_value('3 mm'));"
    code += "print('pint' in sys.modules)"
    assert (
        subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout
        == "False\n"
    )
