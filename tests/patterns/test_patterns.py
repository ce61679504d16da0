"""No regular expression of the package takes more than its share of time, whatever a user wrote.

The patterns are found by reading the package, the hard inputs are made from each pattern, and cost is only compared
within this process: the same search through four times as much.
"""

from __future__ import annotations

import re

import pytest

from site_builder.quantity import (
    NotationError,
    parse_cadence,
    parse_date,
    parse_moment,
    parse_trend,
    parse_value,
)
from site_builder.quantity.signs import MOST_LETTERS
from site_builder.views.free_text import plain
from tests.calls import calls_of
from tests.patterns.found import Used, used_patterns
from tests.patterns.growth import explodes, grows_worse_than_linear, tried
from tests.patterns.hard import hard_inputs

PATTERNS, MADE_LATER = used_patterns()
SHORT = "site_builder/quantity/"
"""Reads nothing longer than ``MOST_LETTERS``, so a square of it does no harm; what explodes does."""


def worst(used: Used) -> str:
    """The first hard input on which the pattern costs too much, or nothing."""
    for method in sorted(used.methods):
        for hard in hard_inputs(used.pattern):
            if explodes(used, method, hard):
                return f"{method} explodes on {hard}"
            if not used.where.startswith(SHORT) and grows_worse_than_linear(
                lambda number, method=method, hard=hard: tried(used, method, hard, number)  # type: ignore[misc]
            ):
                return f"{method} grows worse than its input on {hard}"
    return ""


@pytest.mark.parametrize("used", PATTERNS, ids=lambda used: used.where)
def test_a_pattern_takes_no_longer_than_its_input_is_long(used: Used) -> None:
    assert worst(used) == ""


def test_all_patterns_are_found() -> None:
    assert len(PATTERNS) > 150
    assert len(MADE_LATER) < 10, "these are made of what is only known at run time: keep them few, and plain words"


@pytest.mark.parametrize("bad", [r"(a+)+b", r"\s*,", r"a[0-9]+\w*;", r"<[^>]*>", r"\([^)]*\)x"])
def test_a_bad_pattern_would_be_seen(bad: str) -> None:
    assert worst(Used("here", re.compile(bad), frozenset({"search"})))


@pytest.mark.parametrize("read", [parse_value, parse_cadence, parse_date, parse_moment, parse_trend])
@pytest.mark.parametrize("turn", ["a", "1..", "1", "1/", "–1", "½", "every 1 ", "; min 1", "a-", "["])
def test_of_a_value_only_so_many_letters_are_read(read, turn: str) -> None:  # type: ignore[no-untyped-def]
    text = (turn * 80_000)[:80_000]

    def attempt() -> None:
        with pytest.raises(NotationError, match=f"80000 letters stand here, and of a value {MOST_LETTERS} are read"):
            read(text)

    assert calls_of(attempt) < 3000


@pytest.mark.parametrize("turn", ["a", "1..", "*a", "_a ", "[[a", "[a](", "`", "'", " - ", "\\", "s' ", "&", "<"])
def test_a_text_without_end_is_set_in_its_own_time(turn: str) -> None:
    assert not grows_worse_than_linear(lambda number: lambda: plain(turn * number), 2000, 8000)
