"""The books: the edges of the rules that their own two examples do not show."""

from __future__ import annotations

from pathlib import Path

import pytest
from test_rules import findings_of

from site_builder.notebook.finding import Finding


def found(code: str, example: str, folder: Path) -> list[Finding]:
    return [finding for finding in findings_of(example, folder) if finding.code == code]


def book(kind: str, *entries: str) -> str:
    """A book with these entries, numbered from 1; keys are parted by `; `."""
    text = f"=== skills/records/{kind}.yml\n"
    for number, entry in enumerate(entries, 1):
        text += f"---\n{kind}: {number}\n" + entry.replace("; ", "\n") + "\n"
    return text


def flatness(limit: str) -> str:
    return (
        "=== procedures/foot/grind-foot.yml\nprocedure: grind-foot\ntitle: Grind the foot flat\n"
        "steps:\n  - id: try\n    do: Try it on the plate.\n"
        f"    limits:\n      flatness: {limit}\n"
    )


# --- numbers and dates ----------------------------------------------------------------------------------


def test_a_book_begins_with_one_and_each_gap_is_told_once(tmp_path: Path) -> None:
    example = "=== skills/records/practice.yml\n"
    for number in (2, 3, 3, 4, 7):
        example += f"---\npractice: {number}\nwho: tilde\n"
    assert [(f.at.line, f.about) for f in found("number-gap", example, tmp_path)] == [
        (2, "practice 2"), (8, "practice 3"), (14, "practice 7"),
    ]


def test_an_entry_that_cannot_be_read_leaves_no_gap(tmp_path: Path) -> None:
    example = (
        "=== skills/records/practice.yml\n---\npractice: 1\nwho: tilde\n---\npratice: 2\nwho: tilde\n"
        "---\npractice: 3\nwho: tilde\n"
    )
    assert [f.code for f in findings_of(example, tmp_path)] == ["kind-unknown"]


@pytest.mark.parametrize(
    ("dates", "backward"),
    [
        (("2026-06-19", "2026-06-19"), 0),
        (("2026-06-19", "2026-06"), 0),  # some day of June, so it may be later
        (("2026-06-19", "2026-05"), 1),
        (("2026-06-19", "2025-06-20", "2025-06-21", "2026-06-22"), 2),  # each that is before the latest
    ],
)
def test_which_dates_run_backward(dates: tuple[str, ...], backward: int, tmp_path: Path) -> None:
    example = book("incident", *(f"date: {one}" for one in dates))
    assert len(found("date-backward", example, tmp_path)) == backward


# --- corrections ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("kind", "code", "wrong"),
    [
        ("practice", "more-than-made", "who: tilde; pieces: 40; scrap: 41"),
        ("practice", "own-teacher", "who: tilde; teacher: tilde"),
        ("practice", "record-what", "who: tilde; procedure: flie-foot"),
        ("practice", "record-who", "who: tidle"),
        ("sign-off", "own-sign-off", "who: tilde; learner: tilde"),
        ("measurement", "reading-unit", "measured: grind-foot/try/flatness; readings: 5 g"),
        ("measurement", "reading-outside", "measured: grind-foot/try/flatness; readings: 5 mm"),
        ("practice", "date-backward", "date: 1926-06-19"),
    ],
)
def test_a_wrong_entry_is_answered_by_a_later_one(kind: str, code: str, wrong: str, tmp_path: Path) -> None:
    shop = flatness("max 0.1 mm") + "=== skills/people.yml\npeople: {tilde: Tilde, edda: {name: Edda, founding: yes}}\n"
    right = "date: 2026-06-18"
    assert found(code, shop + book(kind, right, wrong), tmp_path / "wrong")
    mended = book(kind, right, wrong, "who: edda; withdraws: 2; because: A slip of the pen.")
    assert not found(code, shop + mended, tmp_path / "mended")


# --- pieces ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("counts", "message"),
    [
        ("pieces: 40; scrap: 2; rework: 39", "Of 40 pieces 2 scrapped and 39 done again"),
        ("pieces: 40; scrap: 41", "Of 40 pieces 41 scrapped"),
        ("pieces: 40; scrap: 0; rework: 41", "Of 40 pieces 41 done again"),
        ("pieces: 40; scrap: 40", None),
        ("scrap: 41", None),  # how many were made is not told
    ],
)
def test_more_cannot_fail_than_were_made(counts: str, message: str | None, tmp_path: Path) -> None:
    told = [f.message for f in found("more-than-made", book("practice", f"who: tilde; {counts}"), tmp_path)]
    assert [text.split(": ")[0] for text in told] == ([message] if message else [])


# --- readings -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("limit", "readings", "outside"),
    [
        ("max 0.1 mm", "0.1 mm", []),
        ("under 0.1 mm", "0.1 mm", ["0.1 mm"]),
        ("max 0.1 mm", "[0.003 in, 0.005 in]", ["0.005 in"]),
        ("25 +0.2/-0.05 mm", "[24.94 mm, 25.2 mm]", ["24.94 mm"]),
        ("max 0.1 mm", "0.08..0.12 mm", ["0.08..0.12 mm"]),
        ("aim 0.05 mm", "0.4 mm", []),  # where to be, not what is refused
        ("about 0.05 mm", "0.4 mm", []),
        ("{is: max 0.1 mm, guide: yes}", "0.4 mm", []),
        ("{by: material, is: {zinc: max 0.1 mm, brass: max 0.3 mm}}", "[0.2 mm, 0.4 mm]", ["0.4 mm"]),
        ("[{is: max 0.1 mm, for: {finish: gloss}}, {is: max 0.3 mm, for: {finish: matt}}]", "0.2 mm", []),
        ("max 1/3 of wall", "0.4 mm", []),  # the wall is told nowhere
        ("ask", "0.4 mm", []),
    ],
)
def test_which_readings_are_outside(limit: str, readings: str, outside: list[str], tmp_path: Path) -> None:
    entry = f"measured: grind-foot/try/flatness; readings: {readings}"
    told = found("reading-outside", flatness(limit) + book("measurement", entry), tmp_path)
    assert [f.message.split(" is outside")[0] for f in told] == outside


def test_rounds_of_a_gauge_study_are_no_work_that_went_out(tmp_path: Path) -> None:
    study = [f"who: {who}; date: 2026-06-19; measured: grind-foot/try/flatness; readings: [0.05 mm, 0.4 mm]; pieces: 2"
             for who in ("josk", "tilde", "josk", "tilde")]
    assert found("reading-outside", flatness("max 0.1 mm") + book("measurement", *study), tmp_path / "study") == []
    assert len(found("reading-outside", flatness("max 0.1 mm") + book("measurement", study[0]), tmp_path / "one")) == 1


def test_a_limit_taken_from_elsewhere_is_told_as_it_stands_there(tmp_path: Path) -> None:
    size = "=== procedures/shop.yml\nshop: s\ntitle: S\nparts: {plate: {title: Plate, sizes: {height: 42 ±0.1 mm}}}\n"
    entry = book("measurement", "measured: grind-foot/try/flatness; readings: [42.1 mm, 45.0 mm]")
    one, = found("reading-outside", size + flatness("plate/height") + entry, tmp_path)
    assert one.message == "45.0 mm is outside of “flatness” (42 ±0.1 mm), and no entry comes after it."


def test_an_entry_for_another_limit_does_not_answer_it(tmp_path: Path) -> None:
    shop = flatness("max 0.1 mm") + "      height: 42 ±0.3 mm\n"
    flat = "measured: grind-foot/try/flatness; readings: 0.4 mm"
    high = "measured: grind-foot/try/height; readings: 42.1 mm"
    told = found("reading-outside", shop + book("measurement", flat, high), tmp_path)
    assert [f.about for f in told] == ["measurement 1"]


@pytest.mark.parametrize(
    ("limit", "reading", "fits"),
    [
        ("max 0.1 mm", "60 µm", True),
        ("max 0.1 mm", "ask", True),  # a question, not a wrong unit
        ("max 0.1 mm", "good", False),
        ("max 40 °C", "70 °F", True),
        ("max 40 °C", "3 K", False),  # a difference is no temperature
        ("matt", "0.1 mm", True),  # a word has no unit
    ],
)
def test_which_units_fit_the_limit(limit: str, reading: str, fits: bool, tmp_path: Path) -> None:
    entry = f"measured: grind-foot/try/flatness; readings: {reading}"
    told = found("reading-unit", flatness(limit) + book("measurement", entry), tmp_path)
    assert bool(told) is not fits


# --- gauges ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("calibration", "late"),
    [
        ("{when: every 12 mo, date: 2025-03-02}", False),  # good on its last day
        ("{when: every 12 mo, date: 2025-03-01}", True),
        ("{when: start; every 12 mo, date: 2025-03-01}", True),
        ("{when: every 12 mo, date: 2026-06-01}", False),  # what was before that is not told
        ("{when: every 200 pieces, date: 2020-03-01}", False),  # goes by pieces, not by time
        ("{when: every 12 mo}", False),
    ],
)
def test_when_a_gauge_was_late(calibration: str, late: bool, tmp_path: Path) -> None:
    gauge = f"=== tools/gauges/feelers.yml\ngauge: feelers\ntitle: Feelers\ncalibration: {calibration}\n"
    entry = "date: 2026-03-02; with: feelers; readings: 0.05 mm"
    assert bool(found("gauge-late", gauge + book("measurement", entry), tmp_path)) is late


def test_the_gauge_is_that_of_the_limit_where_the_entry_names_none(tmp_path: Path) -> None:
    gauge = (
        "=== tools/gauges/feelers.yml\ngauge: feelers\ntitle: Feelers\n"
        "calibration: {when: every 12 mo, date: 2024-03-01}\n"
    )
    entry = "date: 2026-03-02; measured: grind-foot/try/flatness; readings: 0.05 mm"
    example = gauge + flatness("{is: max 0.1 mm, with: feelers}") + book("measurement", entry)
    (one,) = found("gauge-late", example, tmp_path)
    assert (one.at.path, one.at.line, one.at.column) == ("skills/records/measurement.yml", 3, 7)


# --- names ----------------------------------------------------------------------------------------------


def test_the_nearest_name_is_offered(tmp_path: Path) -> None:
    entry = "measured: grnd-foot/try/flatness; readings: 0.05 mm; with: feelers"
    gauge = "=== tools/gauges/feeler-gauges.yml\ngauge: feeler-gauges\ntitle: Feeler gauges\n"
    told = found("record-what", flatness("max 0.1 mm") + gauge + book("measurement", entry), tmp_path)
    assert [f.fix.split("? ")[0] for f in told] == [
        "Did you mean `grind-foot/try/flatness`", "Did you mean `feeler-gauges`",
    ]


def test_a_thing_whose_file_cannot_be_read_is_not_called_unknown(tmp_path: Path) -> None:
    broken = "=== procedures/foot/file-foot.yml\nprocedure: file-foot\nsteps: [{\n"
    example = broken + book("practice", "who: tilde; procedure: file-foot")
    assert not found("record-what", example, tmp_path)
