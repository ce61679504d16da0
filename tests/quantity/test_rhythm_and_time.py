"""The four smaller notations: cadence, trend, moment and date."""

from __future__ import annotations

from datetime import date

import pytest

from site_builder.quantity import (
    ASK,
    At,
    Cadence,
    Each,
    Event,
    Every,
    Full,
    InFirst,
    Item,
    Later,
    Measure,
    More,
    NotationError,
    Number,
    Outcome,
    Quantity,
    Rate,
    Sample,
    Some,
    Stretch,
    Trend,
    Unit,
    When,
    find_unit,
    parse_cadence,
    parse_date,
    parse_moment,
    parse_trend,
    show_cadence,
    show_date,
    show_moment,
    show_trend,
)


def unit(symbol: str) -> Unit:
    found = find_unit(symbol)
    assert found is not None
    return found


def q(number: str, symbol: str) -> Quantity:
    return Quantity((Measure(Number(number), unit(symbol)),))


CADENCES: list[tuple[str, tuple[Item, ...]]] = [
    ("each piece", (Each("piece"),)),
    ("every 10 pieces", (Every(q("10", "piece")),)),
    ("every about 20 min", (Every(q("20", "min"), rough=True),)),
    ("every some pieces", (Every(Some(unit("piece"))),)),
    ("3 of 50 pieces", (Sample(Number("3"), Number("50"), "pieces"),)),
    ("2 of each load", (Sample(Number("2"), None, "load"),)),
    (
        "2 in first 60 pieces; then 1 per 60 pieces",
        (InFirst(Number("2"), q("60", "piece")), Rate(Number("1"), q("60", "piece"), then=True)),
    ),
    ("start; every 40 pieces", (At("start"), Every(q("40", "piece")))),
    ("first and last", (At("first and last"),)),
    ("last 10 s", (Stretch("last", q("10", "s")),)),
    ("each shift", (Each("shift"),)),
    ("1 per shift", (Rate(Number("1"), q("1", "shift")),)),
    ("after 2 min", (Later(q("2", "min")),)),
    ("after about 90 min", (Later(q("90", "min"), rough=True),)),
    ("first 30 s; then every 1 min", (Stretch("first", q("30", "s")), Every(q("1", "min"), then=True))),
    ("just before casting", (When("before", Event("casting"), just=True),)),
    ("before each batch", (When("before", Event("each batch")),)),
    ("after each new belt", (When("after", Event("each new belt")),)),
    ("before start of fill", (When("before", Event("fill", "start")),)),
    ("after 1 failed piece", (When("after", Outcome(Number("1"), ("failed",), "piece")),)),
    ("full", (Full(),)),
    ("1/3 of full", (Full(Number("1/3")),)),
    ("50 % of full", (Full(Number("50"), percent=True),)),
    ("4 more", (More(Number("4")),)),
    ("ask", (ASK,)),
]


@pytest.mark.parametrize(("text", "items"), CADENCES, ids=[row[0] for row in CADENCES])
def test_a_cadence_is_read_and_printed(text: str, items: tuple[Item, ...]) -> None:
    assert parse_cadence(text) == Cadence(items)
    assert show_cadence(parse_cadence(text)) == text


@pytest.mark.parametrize(
    ("typed", "canonical"),
    [
        ("every 10th piece", "every 10 pieces"),
        ("every second piece", "every 2 pieces"),
        ("every other piece", "every 2 pieces"),
        ("every shift", "each shift"),
        ("after the first 15 min", "after 15 min"),
        ("first 30 s, then every 1 min", "first 30 s; then every 1 min"),
        ("new wheel", "after each new wheel"),
        ("start; each new belt", "start; after each new belt"),
        ("each piece;\n  every about\n20 min", "each piece; every about 20 min"),
        ("every day", "every 1 d"),
        ("start, every 40 pieces", "start; every 40 pieces"),
        ("", "ask"),
    ],
)
def test_other_spellings_of_a_cadence(typed: str, canonical: str) -> None:
    assert show_cadence(parse_cadence(typed)) == canonical


@pytest.mark.parametrize(
    ("text", "code", "said"),
    [
        ("every 3 dollops", "unit-unknown", "add the word under `words`"),
        ("every 10", "unit-missing", "10 what?"),
        ("every 2,5 min", "decimal-comma", "Write `2.5 min`"),
        ("every 3..4 pieces", "value-broken", "is no amount"),
        ("10 pieces", "value-broken", "Write `every 10 pieces`"),
        ("sometimes", "value-broken", "How often is `sometimes`?"),
        ("opening of the tin", "value-broken", "for an event `after opening of the tin`"),
        ("0 of 50 pieces", "value-broken", "no count"),
        ("60 of 50 pieces", "value-broken", "greater than what it is taken from"),
        ("last 10 mm", "value-broken", "wants a duration"),
        ("if the metal is soft", "value-broken", "A condition is no moment"),
        ("after 20 pieces", "value-broken", "is no moment"),
        ("after 2,5 min", "decimal-comma", "Write `2.5 min`"),
        ("start;; end", "value-broken", "Nothing stands between"),
    ],
)
def test_a_wrong_cadence_is_named(text: str, code: str, said: str) -> None:
    with pytest.raises(NotationError) as caught:
        parse_cadence(text)
    assert caught.value.code == code
    assert said in caught.value.message


def test_the_place_of_a_wrong_item_is_told_in_the_whole_cadence() -> None:
    text = "start; every 3 dollops"
    with pytest.raises(NotationError) as caught:
        parse_cadence(text)
    assert text[caught.value.start : caught.value.end] == "3 dollops"


def test_nouns_of_the_shop_stand_in_cadences() -> None:
    assert show_cadence(parse_cadence("every 3 dollops", frozenset({"dollop"}))) == "every 3 dollops"


@pytest.mark.parametrize(
    ("text", "moment"),
    [
        ("fill", Event("fill")),
        ("start of fill", Event("fill", "start")),
        ("end of true-the-sole/try", Event("true-the-sole/try", "end")),
        ("opening of the tin", Event("opening of the tin")),
        ("20 clean pieces", Outcome(Number("20"), ("clean",), "pieces")),
        ("each failed or doubtful piece", Outcome(None, ("failed", "doubtful"), "piece")),
    ],
)
def test_a_moment_is_read_and_printed(text: str, moment: Event | Outcome) -> None:
    assert parse_moment(text) == moment
    assert show_moment(moment) == text


def test_a_moment_tells_where_its_name_stands() -> None:
    moment = parse_moment("start of fill")
    assert isinstance(moment, Event)
    assert moment.start == len("start of ")


@pytest.mark.parametrize(
    ("text", "trend"),
    [
        ("halves per 10 °C of room temperature", Trend("halves", "room temperature", None, q("10", "°C"))),
        ("doubles per 5 K of bath", Trend("doubles", "bath", None, q("5", "K"))),
        ("rises with humidity", Trend("rises", "humidity")),
        (
            "falls 1 min per 4 °C of room temperature",
            Trend("falls", "room temperature", q("1", "min"), q("4", "°C")),
        ),
    ],
)
def test_a_trend_is_read_and_printed(text: str, trend: Trend) -> None:
    assert parse_trend(text) == trend
    assert show_trend(trend) == text


@pytest.mark.parametrize(
    ("text", "code"),
    [("falls 1 min", "value-broken"), ("", "value-broken"),
     ("falls 1 per 4 °C of room", "unit-missing"), ("halves per 10 C of bath", "unit-missing")],
)  # fmt: skip
def test_a_wrong_trend_is_named(text: str, code: str) -> None:
    with pytest.raises(NotationError) as caught:
        parse_trend(text)
    assert caught.value.code == code


@pytest.mark.parametrize(
    ("text", "first", "last"),
    [
        ("2024", date(2024, 1, 1), date(2024, 12, 31)),
        ("2024-02", date(2024, 2, 1), date(2024, 2, 29)),
        ("2026-03-02", date(2026, 3, 2), date(2026, 3, 2)),
        ("2026-12-24..2027-01-06", date(2026, 12, 24), date(2027, 1, 6)),
        ("2024..2026-03", date(2024, 1, 1), date(2026, 3, 31)),
    ],
)
def test_a_date_is_a_day_a_month_a_year_or_a_span(text: str, first: date, last: date) -> None:
    span = parse_date(text)
    assert (span.first, span.last) == (first, last)
    assert show_date(span) == text


@pytest.mark.parametrize(
    ("text", "code", "fix"),
    [
        ("2024-02-30", "value-broken", ""),
        ("2024-13", "value-broken", ""),
        ("11.02.2024", "value-broken", "2024-02-11"),
        ("12.2024", "value-broken", "2024-12"),
        ("31/12/2024", "value-broken", "2024-12-31"),
        ("12/31/2024", "value-broken", "2024-12-31"),
        ("3/4/2024", "value-broken", ""),
        ("32.1.2024", "value-broken", ""),
        ("3 May 2024", "value-broken", "2024-05-03"),
        ("Dec. 24, 2024", "value-broken", "2024-12-24"),
        ("spring 2019", "value-broken", "2019"),
        ("the year of the flood, 2013", "value-broken", ""),
        ("2024-2-1", "value-broken", "2024-02-01"),
        ("2026..2024", "range-backward", "2024..2026"),
        ("2024..2025..2026", "value-broken", ""),
        ("", "value-broken", ""),
    ],
)
def test_a_wrong_date_is_named(text: str, code: str, fix: str) -> None:
    with pytest.raises(NotationError) as caught:
        parse_date(text)
    assert (caught.value.code, caught.value.fix) == (code, fix)
