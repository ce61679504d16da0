"""The arithmetic against what others published; the register itself; and the file the handbook reads."""

from __future__ import annotations

import importlib
import inspect
import json
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

import site_builder
from tests.outside import registry
from tests.outside.registry import Check, Entry, Topic, compare, function_name, results, topics
from tests.outside.table import JSON, as_data, as_json, as_table

PACKAGE = Path(site_builder.__file__).parent
NO_FIGURES_OF_THE_TRADE = {"formulas.errors", "formulas.guards", "formulas.interval"}
"""What the arithmetic is made with: nothing is published about it."""

CHECKS = [check for topic in topics() for check in topic.checks]


def _modules() -> Iterator[str]:
    for folder in ("formulas", "safety"):
        for file in sorted((PACKAGE / folder).glob("*.py")):
            if file.stem != "__init__" and f"{folder}.{file.stem}" not in NO_FIGURES_OF_THE_TRADE:
                yield f"{folder}.{file.stem}"


MODULES = list(_modules())


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: f"{check.function}-{check.entry.id}")
def test_what_others_published(check: Check) -> None:
    result = check.result()
    assert result.agrees, f"{check.entry.cited}: {check.entry.published} {check.entry.unit}, ours {result.ours}"


@pytest.mark.parametrize("module", MODULES)
def test_every_public_function_has_two_checks_from_outside(module: str) -> None:
    found = importlib.import_module(f"site_builder.{module}")
    public = [
        function_name(each)
        for name, each in inspect.getmembers(found, inspect.isfunction)
        if each.__module__ == found.__name__ and not name.startswith("_")
    ]
    counted = Counter(check.function for check in CHECKS)
    assert {name: counted[name] for name in public if counted[name] < 2} == {}


@pytest.mark.parametrize("module", MODULES)
def test_every_public_function_names_its_source(module: str) -> None:
    found = importlib.import_module(f"site_builder.{module}")
    silent = [
        name
        for name, each in inspect.getmembers(found, inspect.isfunction)
        if each.__module__ == found.__name__ and not name.startswith("_")
        if "source" not in (inspect.getdoc(each) or "").lower()
        and "common practice" not in (inspect.getdoc(each) or "").lower()
    ]
    assert silent == []


def test_the_handbooks_file_is_that_of_the_last_run() -> None:
    assert JSON.read_text("utf-8") == as_json(results()), "run: make checks-from-outside"


def test_the_file_tells_all_a_page_needs() -> None:
    data = json.loads(as_json(results()))
    assert data == as_data(results())
    one = next(each for each in data["checks"] if each["id"] == "zn-gAh")
    assert one["function"] == "formulas.deposition.charge_equivalent"
    assert (one["published"], one["unit"], one["seen"], one["agrees"]) == (1.22, "g/Ah", "page", True)
    assert one["source"]["publisher"] == "MISUMI"
    assert data["functions"][one["function"]].startswith("Kilograms that one coulomb lays down")
    assert data["topics"][one["topic"]] == "Plating"


def test_the_table_has_a_line_a_check_and_says_how_many_agree() -> None:
    found = results()
    table = as_table(found).splitlines()
    starts = tuple({result.check.function[:40] for result in found})
    assert sum(line.startswith(starts) for line in table) == len(found)
    assert f"{len(found)} of {len(found)} checks" in table[-1]


def entry(published: object, tolerance: float = 0.0, between: tuple[float, float] | None = None) -> Entry:
    return Entry("e", "", {}, between or published, between, tolerance, "", {"title": "a book"}, "page", "")


@pytest.mark.parametrize(
    ("published", "ours", "difference"),
    [
        (2.0, 2.5, 0.5),
        ([1.0, 2.0], [1.5, 1.0], -1.0),  # rows: where they differ most
        ([1.0, 2.0], [1.0], None),  # rows that do not fit
        (2.0, [1.0, 3.0], 0.0),  # ours is an interval that holds it
        (4.0, [1.0, 3.0], -1.0),  # ours ends one short
        ("liquid", "liquid", 0.0),
        ("liquid", "solid", None),
        (True, False, None),
        (1.0, True, None),  # a truth is no number
        ([], [], 0.0),
        (["P120"], [], None),
    ],
)
def test_how_values_are_compared(published: object, ours: object, difference: float | None) -> None:
    assert compare(entry(published), ours) == difference


@pytest.mark.parametrize(("ours", "difference"), [(5.0, 0.0), (4.0, 0.0), (3.5, -0.5), (6.5, 0.5), ("five", None)])
def test_where_publishers_differ_anything_between_them_agrees(ours: object, difference: float | None) -> None:
    assert compare(entry(None, between=(4.0, 6.0)), ours) == difference


def test_a_wrong_value_is_found() -> None:
    topic = Topic("wheels", "Wheels")
    check = Check(topic, "formulas.none", "", entry(2.0, tolerance=0.1), lambda: 2.2)
    assert not check.result().agrees
    assert "DISAGREES" in as_table([check.result()])


@pytest.mark.parametrize(
    ("text", "complaint"),
    [
        ("{id: a, what: w, expected: 1, seen: page, source: {publisher: p}}", "no source"),
        ("{id: a, what: w, expected: 1, seen: heard, source: {title: t}}", "seen is one of"),
        ("{id: a, what: w, seen: page, source: {title: t}}", "either expected or between"),
        (
            "{id: a, what: w, expected: 1, between: [1, 2], seen: page, source: {title: t}}",
            "either expected or between",
        ),
    ],
)
def test_an_entry_without_source_is_refused(
    text: str, complaint: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "poor.yml").write_text(f"entries:\n- {text}\n", "utf-8")
    monkeypatch.setattr(registry, "REFERENCE", tmp_path)
    with pytest.raises(ValueError, match=complaint):
        registry.reference.__wrapped__("poor")


def test_an_entry_stands_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    one = "- {id: a, what: w, expected: 1, seen: page, source: {title: t}}\n"
    (tmp_path / "twice.yml").write_text(f"entries:\n{one}{one}", "utf-8")
    monkeypatch.setattr(registry, "REFERENCE", tmp_path)
    with pytest.raises(ValueError, match="stands there twice"):
        registry.reference.__wrapped__("twice")


def test_every_published_value_is_asked_about() -> None:
    """A value copied and never used would look like a check and be none."""
    asked = {(check.topic.name, check.entry.id) for check in CHECKS}
    copied = {(topic.name, each) for topic in topics() for each in registry.reference(topic.name)}
    assert copied - asked == set()
