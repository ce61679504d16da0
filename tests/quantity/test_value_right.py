"""Every line of the notation's table of right values, and what it means."""

from __future__ import annotations

from fractions import Fraction

import pytest

from site_builder.quantity import (
    ASK,
    COUNT,
    Choice,
    Clause,
    Computed,
    Deviation,
    Fit,
    Judged,
    Limits,
    Measure,
    Number,
    Per,
    Quantity,
    Range,
    Reference,
    Same,
    Scaled,
    Some,
    Sweep,
    Toleranced,
    Unit,
    Value,
    What,
    Word,
    bounds,
    find_unit,
    kind_of,
    parse_value,
    references,
    show_value,
)


def unit(symbol: str) -> Unit:
    found = find_unit(symbol)
    assert found is not None
    return found


def q(number: str, symbol: str, per: Per | None = None) -> Quantity:
    return Quantity((Measure(Number(number), unit(symbol)),), per)


WALL = Reference("wall")

RIGHT: list[tuple[str, What]] = [
    ("18 m/s", q("18", "m/s")),
    ("1-1/2 in", q("1-1/2", "in")),
    ("2 h 30 min", Quantity((Measure(Number("2"), unit("h")), Measure(Number("30"), unit("min"))))),
    ("9 g per piece", q("9", "g", Per(None, unit("piece")))),
    (
        "about 1 belt per 120 pieces",
        Limits((Clause("about", q("1", "belt", Per(Number("120"), unit("piece")))),)),
    ),
    ("25 ±0.1 mm", Toleranced(Number("25"), Number("0.1"), Number("-0.1"), unit("mm"), True)),
    ("25 +0.2/-0.05 mm", Toleranced(Number("25"), Number("0.2"), Number("-0.05"), unit("mm"), False)),
    ("25 +0.2/0 mm", Toleranced(Number("25"), Number("0.2"), Number("0"), unit("mm"), False)),
    ("±0.2 mm", Deviation(q("0.2", "mm"))),
    ("25 H7 mm", Fit(Number("25"), "H", 7, unit("mm"))),
    ("12..30 °C", Range(q("12", "°C"), q("30", "°C"))),
    ("-5 to 30 °C", Range(q("-5", "°C"), q("30", "°C"))),
    ("10..20 mm", Range(q("10", "mm"), q("20", "mm"))),
    ("max 0.1 mm", Limits((Clause("max", q("0.1", "mm")),))),
    ("min 3 mm", Limits((Clause("min", q("3", "mm")),))),
    ("under 40 °C", Limits((Clause("under", q("40", "°C")),))),
    ("over 60 pieces", Limits((Clause("over", q("60", "pieces")),))),
    (
        "aim 45 µm; min 30; max 70",
        Limits((Clause("aim", q("45", "µm")), Clause("min", q("30", "µm")), Clause("max", q("70", "µm")))),
    ),
    (
        "aim 40..50 µm; min 30; max ask",
        Limits(
            (
                Clause("aim", Range(q("40", "µm"), q("50", "µm"))),
                Clause("min", q("30", "µm")),
                Clause("max", ASK),
            )
        ),
    ),
    ("about 6 min", Limits((Clause("about", q("6", "min")),))),
    (
        "max 1/3 of wall or 1 mm whichever is less",
        Limits((Clause("max", Choice((Scaled(Number("1/3"), False, "of", WALL), q("1", "mm")), "less")),)),
    ),
    ("2 x wall plus 0.5 mm", Computed(Scaled(Number("2"), False, "x", WALL), (("plus", q("0.5", "mm")),))),
    ("80 % of post length", Scaled(Number("80"), True, "of", Reference("post length"))),
    ("bore minus shaft", Computed(Reference("bore"), (("minus", Reference("shaft")),))),
    ("strokes x feed", Computed(Reference("strokes"), (("x", Reference("feed")),))),
    ("max pot life", Limits((Clause("max", Reference("pot life")),))),
    ("material/pot life", Word("material/pot life")),
    ("fill/open time", Word("fill/open time")),
    ("same day", Same("day")),
    ("min 4 h; max same day", Limits((Clause("min", q("4", "h")), Clause("max", Same("day"))))),
    ("from 18 to 12 m/s", Sweep(q("18", "m/s"), q("12", "m/s"))),
    ("lowest that still cuts", Judged("lowest", "that still cuts")),
    ("judged by the ring of it", Judged("judged", "by the ring of it")),
    ("some min", Some(unit("min"))),
    ("ask", ASK),
    ("P80", Word("P80")),
    ("P80..P120", Word("P80..P120")),
    ("matt", Word("matt")),
    ("type 316", Word("type 316")),
]


@pytest.mark.parametrize(("text", "what"), RIGHT)
def test_a_right_value_means_what_the_table_says(text: str, what: What) -> None:
    assert parse_value(text) == Value(what)


@pytest.mark.parametrize("text", [text for text, _ in RIGHT])
def test_canonical_text_is_as_the_table_writes_it(text: str) -> None:
    # "to" is the one other spelling in the table; the canonical one is "..".
    canonical = text.replace(" to ", "..") if text.startswith("-5") else text
    assert show_value(parse_value(text)) == canonical


def test_perhaps_puts_the_whole_value_in_doubt() -> None:
    assert parse_value("perhaps 6 mo") == Value(q("6", "mo"), perhaps=True)
    assert parse_value("perhaps") == Value(ASK, perhaps=True)


@pytest.mark.parametrize("text", ["", "  ", "\n", "ask"])
def test_nothing_and_ask_are_the_same(text: str) -> None:
    assert parse_value(text) == Value(ASK)


def test_a_bare_number_is_a_count_where_the_key_is_one() -> None:
    three = parse_value("about 3..4; max 6", bare_count=True)
    low, high, most = (Quantity((Measure(Number(n), COUNT),)) for n in ("3", "4", "6"))
    assert three == Value(Limits((Clause("about", Range(low, high)), Clause("max", most))))
    assert kind_of(parse_value("2", bare_count=True)) == "count"
    assert show_value(three) == "about 3..4; max 6"


def test_a_unit_given_once_serves_all_and_may_be_written_twice() -> None:
    assert parse_value("12 °C..30 °C") == parse_value("12..30 °C") == parse_value("12 °C..30")
    assert parse_value("min 3; max 5 g per piece") == parse_value("min 3 g per piece; max 5")


def test_min_is_the_minute_after_a_number_and_the_floor_before_one() -> None:
    assert parse_value("min 3 min") == Value(Limits((Clause("min", q("3", "min")),)))


def test_a_comma_may_stand_between_clauses() -> None:
    assert parse_value("aim 3 mm, min 2 mm") == parse_value("aim 3 mm; min 2 mm")


def test_a_name_with_a_word_of_the_notation_goes_in_brackets() -> None:
    assert parse_value("1/3 of [distance to edge]").what == Scaled(
        Number("1/3"), False, "of", Reference("distance to edge", bracketed=True)
    )


def test_references_tell_where_the_name_stands() -> None:
    text = "max 1/3 of wall or post length minus 2 mm whichever is less"
    found = references(parse_value(text))
    assert [(ref.name, text[ref.start : ref.end]) for ref in found] == [
        ("wall", "wall"),
        ("post length", "post length"),
    ]


def test_a_plain_quantity_has_no_limits() -> None:
    told = bounds(parse_value("18 m/s"))
    assert told is not None
    assert not told.limited
    assert told.aim_low == told.aim_high == 18


@pytest.mark.parametrize(
    ("text", "exact"),
    [("0.10 mm", "1/10"), ("1-1/2 in", "3/2"), ("-1-1/2 in", "-3/2"), ("1/8 in", "1/8"), ("-5 °C", "-5")],
)
def test_numbers_keep_their_digits_and_are_exact(text: str, exact: str) -> None:
    what = parse_value(text).what
    assert isinstance(what, Quantity)
    assert what.parts[0].number.exact == Fraction(exact)
    assert show_value(parse_value(text)) == text


@pytest.mark.parametrize(
    ("typed", "plain"),
    [
        ("–5 °C", "-5 °C"),
        ("−5 to 30 °C", "-5..30 °C"),
        ("12–30 °C", "12..30 °C"),
        ("12 – 30 °C", "12..30 °C"),
        ("12…30 ºC", "12..30 °C"),
        ("min –5 °C", "min -5 °C"),
        ("30 min–1 h", "30 min..1 h"),
        ("½ in", "1/2 in"),
        ("1½ in", "1-1/2 in"),
        ("⅛ in", "1/8 in"),
        ("2 × wall", "2 x wall"),
        ("5\u00a0mm", "5 mm"),
    ],
)
def test_signs_from_phones_are_read_as_plain_ones(typed: str, plain: str) -> None:
    assert show_value(parse_value(typed)) == plain


@pytest.mark.parametrize(
    ("typed", "plain"),
    [("<= 3 mm", "max 3 mm"), (">= 3 mm", "min 3 mm"), ("≤ 3 mm", "max 3 mm"), ("< 3 mm", "under 3 mm")],
)
def test_comparison_signs_become_words(typed: str, plain: str) -> None:
    assert show_value(parse_value(typed)) == plain


def test_phone_signs_are_noticed() -> None:
    from site_builder.quantity import had_phone_signs

    assert had_phone_signs("12–30 °C")
    assert had_phone_signs("½ in")
    assert not had_phone_signs("25 ±0.1 mm")
    assert not had_phone_signs("45 µm")


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("3 mm", "length"), ("20 min", "time"), ("20 °C", "temperature"), ("5 K", "temperature difference"),
        ("5 °C difference", "temperature difference"), ("9 °F difference", "temperature difference"),
        ("±5 °C", "temperature difference"), ("18 m/s", "speed"), ("2800 rev/min", "rotation speed"),
        ("2 kg", "mass"), ("90 HB", "hardness"), ("50 %", "ratio"), ("3 passes", "count"),
        ("30 ° angle", "angle"), ("85 dB(A)", "sound level"), ("2 parts by weight", "part by weight"),
        ("1 part by volume", "part by volume"), ("2 parts", "part"), ("4 A/dm²", "current density"),
        ("2.1 m/s²", "acceleration"), ("7 h/day", "time per time"), ("2 working days", "working time"),
        ("9 g per piece", "mass per count"), ("from 18 to 12 m/s", "speed"), ("max 5 mil", "length"),
        ("20 °C plus 5 K", "temperature"), ("min 4 h; max same day", "time"), ("25 H7 mm", "length"),
        ("matt", None), ("ask", None), ("judged", None), ("max wall", None),
    ],
)  # fmt: skip
def test_every_value_has_the_kind_of_its_unit(text: str, kind: str | None) -> None:
    assert kind_of(parse_value(text)) == kind


def test_nouns_of_the_shop_are_counted_in_both_numbers() -> None:
    nouns = frozenset({"dollop", "test piece"})
    assert parse_value("1 dollop", nouns).what == Quantity(
        (Measure(Number("1"), find_unit("dollop", nouns) or COUNT),)
    )
    assert show_value(parse_value("3 dollops", nouns)) == "3 dollops"
    assert show_value(parse_value("3 test pieces", nouns)) == "3 test pieces"
    assert show_value(parse_value("2 dollops per test piece", nouns)) == "2 dollops per test piece"
