"""Values as they are said at the bench: a rough ceiling, a doubted one, one without its figure; gallons and grit."""

from __future__ import annotations

import pytest

from site_builder.quantity import (
    WHICH_GALLON,
    Limits,
    Some,
    Value,
    Word,
    bounds,
    for_people,
    kind_of,
    parse_value,
    references,
    show_value,
    units_in,
)
from site_builder.quantity.errors import NotationError


@pytest.mark.parametrize(("written", "people"), [
    ("max about 30 min", "max about 30 min"),
    ("min about 2 h; max about 3", "min about 2 h, max about 3 h"),
    ("max perhaps 2 h", "max perhaps 2 h"),
    ("max perhaps about 2 h", "max perhaps about 2 h"),
    ("min 1 h; max perhaps 2 h", "min 1 h, max perhaps 2 h"),
    ("max some h", "max some h, not told yet"),
    ("min 2 h; max some h", "min 2 h, max some h, not told yet"),
])
def test_a_limit_may_be_rough_or_doubted_or_without_its_figure(written: str, people: str) -> None:
    value = parse_value(written)
    assert parse_value(show_value(value)) == value
    assert for_people(value, "metric").main.replace("\u00a0", " ") == people
    assert references(value) == ()
    assert kind_of(value) == "time"


def test_a_rough_ceiling_bounds_and_says_that_it_is_rough() -> None:
    found = bounds(parse_value("max about 30 min"))
    assert found is not None
    assert (found.high, found.low, found.rough) == (1800, None, True)


def test_a_doubt_at_one_side_doubts_the_value() -> None:
    assert parse_value("min 1 h; max perhaps 2 h").perhaps
    assert not parse_value("min 1 h; max 2 h").perhaps


def test_a_side_without_its_figure_bounds_nothing_on_that_side() -> None:
    value = parse_value("min 2 h; max some h")
    assert isinstance(value.what, Limits)
    assert isinstance(value.what.clauses[1].what, Some)
    found = bounds(value)
    assert found is not None
    assert (found.low, found.high, found.high_untold) == (7200, None, True)


@pytest.mark.parametrize(("written", "metric"), [("3 US gal", "11.4 L"), ("3 imp gal", "13.6 L"), ("3 gal", "")])
def test_only_a_gallon_with_an_owner_is_converted(written: str, metric: str) -> None:
    # 231 in³ exactly (NIST Handbook 44, Appendix C) and 4.54609 L exactly (UK Units of Measurement Regulations 1995)
    told = for_people(parse_value(written), "both")
    assert (told.main.replace("\u00a0", " "), told.other.replace("\u00a0", " ")) == (written, metric)


def test_a_bare_gallon_bounds_nothing_and_stays_a_volume() -> None:
    value = parse_value("max 5 gal")
    assert show_value(value) == "max 5 gal"
    assert kind_of(value) == "volume"
    assert bounds(value) is None
    assert WHICH_GALLON in units_in(value)
    assert WHICH_GALLON not in units_in(parse_value("max 5 US gal"))
    assert WHICH_GALLON in units_in(parse_value("4 oz per gal"))


@pytest.mark.parametrize("written", ["80 grit", "80 grit and finer", "220 grit and coarser"])
def test_grit_stands_as_people_say_it(written: str) -> None:
    assert parse_value(written) == Value(Word(written))


def test_grit_counted_in_something_else_is_still_refused() -> None:
    with pytest.raises(NotationError):
        parse_value("80 grits of sand")
