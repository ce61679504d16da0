"""What can be at all: every key of the grammar has its range, and honest values of other trades pass."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine
from site_builder.checks.example import write_example
from site_builder.checks.rules.possible import RULES
from site_builder.checks.rules.possible.days import AHEAD, HAPPENED
from site_builder.checks.rules.possible.ranges import OF_KEY, OF_LIMIT
from site_builder.notebook.finding import Finding
from site_builder.notebook.model.entry import Entry

TODAY = date(2026, 11, 24)


@pytest.fixture
def found(tmp_path: Path):
    """Write a notebook and return what the rules on what can be find in it."""

    def run(notebook: str) -> list[Finding]:
        write_example(notebook, tmp_path)
        codes = {rule.code for rule in RULES} | {"rule-crashed"}
        return [one for one in examine(analysis(tmp_path, TODAY)) if one.code in codes]

    return run


def entries(model: type[Entry] = Entry) -> Iterator[type[Entry]]:
    """Every kind of mapping of the grammar."""
    for narrower in model.__subclasses__():
        if narrower.__module__.startswith("site_builder.notebook."):
            yield narrower
            yield from entries(narrower)


def keys_holding(word: str) -> set[tuple[str, str, str]]:
    """Every key whose type has this in it: the entry, the entry that brings the key in, and the key."""
    found = set()
    for model in entries():
        for name, field in model.model_fields.items():
            owner = next(one for one in reversed(model.__mro__) if name in getattr(one, "model_fields", {}))
            if re.search(word, repr(field.annotation)):
                found.add((model.__name__, owner.__name__, field.alias or name))
    return found


def test_every_key_that_holds_a_value_says_what_can_be() -> None:
    values = keys_holding(r"ParsedValue\[[\w.]*\bValue\]")
    assert ("Time", "Time", "each") in values and ("Order", "Order", "pieces") in values
    missing = {
        (model, key) for model, owner, key in values
        if key != "is" and (model, key) not in OF_KEY and (owner, key) not in OF_KEY
    }
    assert missing == set()


def test_every_list_of_limits_says_what_can_be() -> None:
    limits = {key for _, _, key in keys_holding(r"\b(Limit|Window)\b")}
    assert "age" in limits and "windows" in limits
    assert limits - set(OF_LIMIT) == set()


def test_every_day_is_past_or_may_lie_ahead() -> None:
    days = keys_holding(r"ParsedValue\[[\w.]*\bDateSpan\]")
    assert ("Person", "Person", "born") in days
    missing = {
        (model, key) for model, owner, key in days
        if not {(model, key), (owner, key)} & (HAPPENED | AHEAD)
    }
    assert missing == set()


STEP = "=== procedures/foot/grind-foot.yml\nprocedure: grind-foot\ntitle: Grind the foot\nsteps: Grind it.\n"
DOOR = "=== procedures/shop.yml\nshop: q\ntitle: Q\nparts: {door: {title: Door, sizes: {height: %s}}}\n"


@pytest.mark.parametrize("line", [
    "time: {each: 0 min}", "time: {setup: -5 min, each: 3 min}", "yield: {scrap: 104 %}", "yield: {rework: -1 %}",
    "yield: {returns: 350 %}", "load: 0 pieces", "load: max 0 kg", "hands: 0", "hands: {count: 1.5}",
    "wait: -2 h", "conditions: {room temperature: 100..300 °C}", "conditions: {room temperature: 200..300 °F}",
    "conditions: {humidity: max 700 %}", "conditions: {humidity: -5 %}", "limits: {heat of the bath: max -490 °C}",
    "settings: {time in the bath: -20 min}", "settings: {moisture: -3 %}", "until: {clock: 0 min}",
    "checks: {good: It rings., share: min 120 %}", "troubles: {sign: It rocks., do: Again., times: max 0}",
    "materials: {material: sand, amount: 0 kg per piece}", "keep: {what: A strip., amount: 0 pieces}",
    "repeat: {times: 2.5}", "windows: {recoat: max 0 h}",
])  # fmt: skip
def test_a_figure_that_nothing_can_have_is_an_error_at_its_place(found, line: str) -> None:
    errors = [one for one in found(f"{STEP}{line}\n") if one.code == "figure-impossible"]
    assert errors and all(one.at.line == 4 and one.fix for one in errors)


@pytest.mark.parametrize("line", [
    "time: {setup: 0 min, each: 45 s}", "also: {do: Throw it back., yield: {scrap: 100 %}, when: start}",
    "load: a full tray", "load: 0.5..2 kg",
    "hands: 2..3 people", "wait: min 0 h; max 2 d", "conditions: {room temperature: 60..80 °F}",
    "conditions: {humidity: 3 g/m³}", "conditions: {room temperature: -10..5 °C}",
    "limits: {heat of the bath: -196 °C}", "limits: {gain of one arm: -0.2..0.5 g}",
    "limits: {height over the plate: 0 +0.2/-0.1 mm}", "limits: {flatness: ±0.1 mm}", "settings: {moisture: 140 %}",
    "settings: {angle: -15 ° angle}", "settings: {pressure: -0.8 bar}", "repeat: {times: about 2; max 5}",
    "checks: {good: It rings., share: 100 %}", "settings: {loss: some %}", "settings: {humidity: ask}",
    "windows: {recoat: min 0 min; max ask}", "settings: {loss: max 10 % of [thinner]}", "yield: {scrap: ask}",
])  # fmt: skip
def test_what_can_be_passes(found, line: str) -> None:
    assert found(f"{STEP}{line}\n") == []


@pytest.mark.parametrize(("size", "codes"), [
    ("0 mm", ["figure-impossible"]), ("-2040 ±2 mm", ["figure-impossible"]), ("2040 ±2 mm", []),
    ("0 +0.2/-0.1 mm", ["figure-doubtful"]), ("±2 mm", []), ("3 ±900 mm", ["figure-impossible"]),
    ("max 2 m", []), ("min 0 mm", []),
])  # fmt: skip
def test_a_size_is_more_than_nothing(found, size: str, codes: list[str]) -> None:
    assert [one.code for one in found(DOOR % size)] == codes


@pytest.mark.parametrize(("age", "fix"), [
    ("max 16 y", "Write `min 16 y`."), ("min 8 y", "Put right the figure or its unit."),
    ("min 160 y", "Put right the figure or its unit."), ("min 16 mo", "Put right the figure or its unit."),
])  # fmt: skip
def test_an_age_is_a_least_age_of_people(found, age: str, fix: str) -> None:
    only, = found(f"=== tools/machines/saw.yml\nmachine: saw\ntitle: Saw\nage: {age}\n")
    assert (only.code, only.fix) == ("figure-impossible", fix)


@pytest.mark.parametrize(("hours", "codes"), [
    ("40 h/week", []), ("9 h/day", []), ("72 h/week", ["figure-doubtful"]), ("18 h/day", ["figure-doubtful"]),
    ("300 h/week", ["figure-impossible"]), ("30 h/day", ["figure-impossible"]), ("0 h/week", ["figure-impossible"]),
])  # fmt: skip
def test_a_week_has_its_hours(found, hours: str, codes: list[str]) -> None:
    people = f"=== skills/people.yml\npeople:\n  edda: {{name: Edda, hours: {hours}}}\n"
    assert [one.code for one in found(people)] == codes


def test_a_clock_further_east_may_be_a_day_ahead(found) -> None:
    dated = "=== tools/gauges/rule.yml\ngauge: rule\ntitle: Rule\ncalibration: {when: each year, date: %s}\n"
    assert found(dated % "2026-11-25") == []
    assert found(dated % "2026") == []
    assert [one.code for one in found(dated % "2026-11-26")] == ["day-ahead"]


def test_what_was_signed_tells_which_of_two_days_is_wrong(found) -> None:
    revised = f"{STEP}revisions: {{what: New., date: 2019-05-01, who: mira}}\n=== skills/people.yml\n"
    only, = [one for one in found(f"{revised}people:\n  mira: {{name: Mira, born: 1990, joined: 1987}}\n")
             if one.code == "life-backward"]
    assert only.at.column == len("  mira: {name: Mira, born: 1990, joined: ") + 1


@pytest.mark.parametrize(("file", "line"), [
    ("tools/materials/oak.yml\nmaterial: oak\ntitle: Oak", "stock: -5 kg"),
    ("tools/materials/oak.yml\nmaterial: oak\ntitle: Oak", "lead time: -1 wk"),
    ("tools/machines/saw.yml\nmachine: saw\ntitle: Saw", "count: 0"),
    ("procedures/orders/o.yml\norder: o\ntitle: O", "made: {door: -1}"),
    ("procedures/shop.yml\nshop: q\ntitle: Q", "planning: {noise: 300 dB(A)}"),
    ("procedures/shop.yml\nshop: q\ntitle: Q", "planning: {vibration: 0 m/s²}"),
])  # fmt: skip
def test_what_a_season_cannot_be_planned_from_is_an_error_at_its_line(found, file: str, line: str) -> None:
    only, = [one for one in found(f"=== {file}\n{line}\n") if one.code == "figure-impossible"]
    assert (only.at.line, bool(only.fix)) == (3, True)
