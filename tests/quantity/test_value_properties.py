"""What holds of all values: printing and reading again gives the same, and no text breaks the reader."""

from __future__ import annotations

from hypothesis import example, given, settings
from hypothesis import strategies as st

from site_builder.quantity import (
    NotationError,
    bounds,
    for_people,
    had_phone_signs,
    kind_of,
    parse_cadence,
    parse_date,
    parse_moment,
    parse_trend,
    parse_value,
    show_cadence,
    show_date,
    show_moment,
    show_trend,
    show_value,
)
from tests.calls import calls_of

digits = st.integers(0, 9999).map(str)
numbers = st.one_of(
    digits,
    st.tuples(digits, st.text("0123456789", min_size=1, max_size=4)).map(".".join),
    st.sampled_from(["1/8", "1-1/2", "3/4", "-5", "-0.50", "12-15/16", "007"]),
)
lengths = st.sampled_from(["mm", "in", "µm", "ft"])
units = st.sampled_from(
    (
        *(
            "mm",
            "µm",
            "in",
            "m/s",
            "ft/min",
            "°C",
            "°F",
            "K",
            "kg",
            "min",
            "h",
            "d",
            "wk",
            "mo",
            "y",
            "rev/min",
        ),
        *("%", "mil", "thou", "dB(A)", "HV", "g/L", "m²/L", "N m", "A/dm²", "° angle", "°C difference"),
        *("parts by weight", "pieces", "strokes", "working days"),
    )
)
names = st.sampled_from(["wall", "post length", "material/pot life", "[distance to edge]", "foot/wall"])
rates = st.sampled_from(["", " per piece", " per 120 pieces", " per 4 °C", " per m"])


@st.composite
def quantities(draw: st.DrawFn) -> str:
    return f"{draw(numbers)} {draw(units)}{draw(rates)}"


@st.composite
def expressions(draw: st.DrawFn) -> str:
    factor = draw(st.sampled_from(["", "2 x ", "1/3 of ", "80 % of "]))
    name = draw(names)
    if not factor and name[0] != "[":
        factor = "1 x "
    return f"{factor}{name} {draw(st.sampled_from(['plus', 'minus']))} {draw(numbers)} {draw(lengths)}"


@st.composite
def values(draw: st.DrawFn) -> str:
    low, high = sorted((draw(st.integers(-50, 999)), draw(st.integers(-50, 999))))
    unit = draw(units)
    text = draw(
        st.one_of(
            quantities(),
            expressions(),
            st.sampled_from(
                ["ask", "same day", "lowest that still cuts", "judged", "P80..P120", "matt, soft"]
            ),
            st.just(f"{low}..{high} {unit}"),
            st.just(f"{low} {unit} to {high}"),
            st.just(f"from {high} to {low} {unit}"),
            st.just(f"min {low}; max {high + 1} {unit}; aim {low}..{high}"),
            st.just(f"max {low} {unit} or 1/3 of wall whichever is less"),
            st.just(f"about {high} {unit}, max ask"),
            st.just(f"{high} ±0.1 {unit}"),
            st.just(f"{high} +0.2/-0.05 {unit}"),
            st.just(f"±{abs(high)} {unit}"),
            st.just("25 H7 mm"),
            st.just(f"some {unit}"),
        )
    )
    return draw(st.sampled_from(["", "perhaps "])) + text


@given(values())
@settings(max_examples=600, deadline=None)
def test_a_value_printed_and_read_again_is_the_same(text: str) -> None:
    value = parse_value(text)
    canonical = show_value(value)
    assert parse_value(canonical) == value
    assert show_value(parse_value(canonical)) == canonical
    for_people(value)
    bounds(value)


SCRAPS = """25 0.1 1/8 1-1/2 -5 ± + - / .. … – − × ½ ; , [ ] [wall] ( ) % ° °C C mm in min max aim about
over under or to per plus minus x of from whichever is less more ask some perhaps lowest judged
same day H7 h piece wall P80 parts by weight difference angle 2,5 " ' ? : > < = every each then
first last full start end"""
scraps = st.lists(st.sampled_from([*SCRAPS.split(), "\u00a0"]), max_size=9)
anything = st.one_of(st.text(max_size=40), scraps.map(" ".join), scraps.map("".join))


@given(anything, st.booleans())
@settings(max_examples=3000, deadline=None)
@example("1/0 mm", False)
@example("25 +1/0 mm", False)
@example("½½ in", False)
@example("perhaps perhaps", False)
def test_any_text_is_a_value_or_is_refused(text: str, bare_count: bool) -> None:
    had_phone_signs(text)
    try:
        value = parse_value(text, bare_count=bare_count)
    except NotationError as error:
        assert error.message
        assert 0 <= error.start <= error.end <= len(text)
        return
    assert parse_value(show_value(value), bare_count=bare_count) == value
    for system in ("metric", "imperial", "both"):
        assert for_people(value, system).main
    bounds(value)
    kind_of(value)


@given(anything)
@settings(max_examples=1500, deadline=None)
def test_any_text_is_one_of_the_smaller_notations_or_is_refused(text: str) -> None:
    for parse, show in (
        (parse_cadence, show_cadence),
        (parse_trend, show_trend),
        (parse_date, show_date),
        (parse_moment, show_moment),
    ):
        try:
            read = parse(text)  # type: ignore[operator]
        except NotationError as error:
            assert 0 <= error.start <= error.end <= len(text)
            continue
        assert parse(show(read)) == read  # type: ignore[operator]


@given(st.frozensets(st.text(max_size=12), max_size=4), st.integers(0, 20))
@settings(max_examples=300, deadline=None)
def test_any_word_of_the_shop_may_be_counted_in(words: frozenset[str], count: int) -> None:
    for word in words:
        try:
            value = parse_value(f"{count} {word}", words)
        except NotationError:
            continue
        assert parse_value(show_value(value), words) == value


def test_a_short_value_is_read_in_few_calls() -> None:
    """What reading costs, counted in calls of functions: the same on every machine and on every day."""
    texts = [
        "18 m/s",
        "max 0.1 mm",
        "25 ±0.1 mm",
        "12..30 °C",
        "about 6 min",
        "P80",
        "25 +0.2/-0.05 mm",
        "matt",
    ]
    uncached = parse_value.__wrapped__
    for text in texts:
        uncached(text)  # patterns are compiled and tables made once
        assert calls_of(lambda text=text: uncached(text)) < 250, text
