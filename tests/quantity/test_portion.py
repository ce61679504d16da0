"""Amounts written as a share of another one. Worked out by hand."""

from __future__ import annotations

import pytest

from site_builder.quantity import for_people, parse_value
from site_builder.quantity.portion import share_in_figures, share_named


@pytest.mark.parametrize(("share", "whole", "figures"), [
    ("1/8 of flour", "2 oz per batch", "1/4 oz per batch"),
    ("3 x flour", "1/2 lb per batch", "1-1/2 lb per batch"),
    ("4/7 of oil", "3.5 kg per lot", "2 kg per lot"),
    ("2 % of flour", "1 kg per batch", "0.02 kg per batch"),
    ("max 5 % of fat", "about 40 kg per batch", "max about 2 kg per batch"),
    ("about 1/3 of oil", "9 to 12 g per piece", "about 3 to 4 g per piece"),
    ("1/2 of oil", "about 3 kg per load", "about 1.5 kg per load"),
])
def test_a_share_in_figures(share: str, whole: str, figures: str) -> None:
    found = share_in_figures(parse_value(share), parse_value(whole))
    assert found is not None
    assert for_people(found).main.replace("\u00a0", " ") == figures


@pytest.mark.parametrize(("share", "whole"), [("1/8 of flour", "ask"), ("1/8 of flour", "some kg"), ("2 kg", "3 kg"),
                                              ("1/2 of oil", "min 1 kg; max 2 kg")])
def test_no_figures_where_none_are_told(share: str, whole: str) -> None:
    assert share_in_figures(parse_value(share), parse_value(whole)) is None


def test_the_name_of_what_it_is_a_share_of() -> None:
    assert share_named(parse_value("max 5 % of linseed oil")) == "linseed oil"
    assert share_named(parse_value("5 kg")) is None
