"""Names of threads that look like ranges and products."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from site_builder.quantity import NotationError, Word, parse_value, show_value


@pytest.mark.parametrize("written", [
    "1/4-20", "1/4-20 UNC", "#10-24 UNC", "#8-32", "No. 10-32 UNF", "5/16-18 UNC-2A", "3/8 UNC", "8-32 UNC", '1/4"-20',
    "M8x1", "M8 x 1", "M6x0.75-6g", "0.190-32 UNF",
])
def test_a_thread_is_a_name(written: str) -> None:
    value = parse_value(written)
    assert value.what == Word(written)
    assert parse_value(show_value(value)) == value


def test_signs_of_phones_are_read_as_meant() -> None:
    assert parse_value("¼-20").what == Word("1/4-20")
    assert parse_value("M8 × 1").what == Word("M8 x 1")


@pytest.mark.parametrize("written", ["8-32", "1/4-20 mm", "1/4-3/8 in", "3-5 min", "10-24"])
def test_what_may_be_a_range_is_still_asked_about(written: str) -> None:
    with pytest.raises(NotationError) as caught:
        parse_value(written)
    assert caught.value.code == "range-hyphen"


def test_a_numbered_size_without_its_sign_is_told_how_to_be_written() -> None:
    with pytest.raises(NotationError) as caught:
        parse_value("8-32")
    assert caught.value.message.endswith("If it is a thread, write `No. 8-32`.")
    assert parse_value("No. 8-32").what == Word("No. 8-32")


@given(st.sampled_from(["1/4", "5/16", "#6", "#12", "No. 4"]), st.integers(10, 80),
       st.sampled_from(["", " UNC", " UNF-2B"]))
def test_size_and_count_are_a_name_whatever_they_are(size: str, count: int, series: str) -> None:
    written = f"{size}-{count}{series}"
    assert parse_value(written).what == Word(written)
