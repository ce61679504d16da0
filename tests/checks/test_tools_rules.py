"""Tools and materials: the edges of the rules that their own two examples do not show."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from test_route_rules import found, procedure, shop

from site_builder.notebook.model.shop import Calendar
from site_builder.notebook.reader import read_text
from site_builder.notebook.tree import Map
from site_builder.notebook.validate import validate
from site_builder.notebook.working_days import working_days


def material(id_: str, *lines: str) -> str:
    return f"=== tools/{id_}.yml\n" + "\n".join((f"material: {id_}", f"title: {id_.title()}", *lines)) + "\n"


def tooling(id_: str, *lines: str) -> str:
    return f"=== tools/{id_}.yml\n" + "\n".join((f"tooling: {id_}", f"title: {id_.title()}", *lines)) + "\n"


# --- what is due (today is Tuesday, 24 November 2026) -----------------------------------------------------


@pytest.mark.parametrize(
    ("when", "date_", "overdue"),
    [
        ("every 6 mo", "2026-05-24", False),  # the last day
        ("every 6 mo", "2026-05-23", True),
        ("every 6 mo", "2026-05", False),  # may have been the 31st
        ("every about 6 mo", "2026-05-01", False),
        ("every about 6 mo", "2026-03-01", True),
        ("every about 120 pieces; every 6 mo", "2026-03-01", True),
        ("every 120 pieces", "2020", False),
        ("every 20 min", "2020", False),  # no date can tell
        ("after each new belt", "2020", False),
        ("every some mo", "2020", False),
        ("each week", "2026-11-16", False),  # Monday of last week
        ("each week", "2026-11-15", True),  # Sunday: all of last week went by without it
        ("each month", "2026-10-01", False),
        ("each month", "2026-09-30", True),
        ("each year", "2025-01-02", False),
        ("each year", "2024-12-30", True),
        ("each day", "2026-11-17", False),  # it may have stood idle for four days
        ("each day", "2026-11-16", True),  # but for a working week?
        ("each shift", "2026-11-16", True),
        ("every 2 d", "2026-11-17", False),
        ("every 2 d", "2026-11-13", True),
        ("each piece", "2020", False),
        ("each day", "2027", False),
        ("every 6 mo", "9999", False),
    ],
)
def test_when_upkeep_is_overdue(when: str, date_: str, overdue: bool, tmp_path: Path) -> None:
    belt = tooling("belt", f"upkeep: {{do: Clean it., when: {when}, date: {date_}}}")
    assert bool(found("upkeep-overdue", belt, tmp_path)) is overdue


def test_a_week_in_which_the_shop_is_closed_is_not_missed(tmp_path: Path) -> None:
    belt = tooling("belt", "upkeep: {do: Clean it., when: each week, date: 2026-11-12}")
    closed = shop("calendar: {closed: 2026-11-16..2026-11-20}")
    assert found("upkeep-overdue", belt + shop(), tmp_path / "open")
    assert not found("upkeep-overdue", belt + closed, tmp_path / "closed")
    saturday = shop("calendar: {days: [Saturday], closed: 2026-11-16..2026-11-20}")
    assert found("upkeep-overdue", belt + saturday, tmp_path / "saturday")


def test_working_days_are_those_of_the_calendar() -> None:
    trees, _, _ = read_text("days: [Monday, Wednesday]\nclosed: [2026-12-23..2027-01-05]\n", "shop.yml")
    assert isinstance(trees[0], Map)
    calendar, _ = validate(Calendar, trees[0], frozenset())
    found_days = list(working_days(calendar, date(2026, 12, 14), date(2027, 1, 6)))
    assert found_days == [date(2026, 12, 14), date(2026, 12, 16), date(2026, 12, 21), date(2027, 1, 6)]
    assert list(working_days(None, date(9999, 12, 30), date.max)) == [date(9999, 12, 30), date(9999, 12, 31)]


@pytest.mark.parametrize(
    ("calibration", "overdue"),
    [
        ("{when: every 12 mo, date: 2025-11-24}", False),
        ("{when: every 12 mo, date: 2025-11-23}", True),
        ("{when: every 12 mo, date: 2025-11}", False),
        ("{when: ask, date: 2015}", False),
        ("{when: after each fall, date: 2015}", False),
        ("every 12 mo", False),
    ],
)
def test_when_a_gauge_is_past_its_date(calibration: str, overdue: bool, tmp_path: Path) -> None:
    gauge = f"=== tools/caliper.yml\ngauge: caliper\ntitle: Caliper\ncalibration: {calibration}\n"
    assert bool(found("gauge-overdue", gauge, tmp_path)) is overdue


@pytest.mark.parametrize(
    ("properties", "stale"),
    [
        ("{shelf life after opening: 4 mo}", True),
        ("{shelf life after opening: perhaps 4 mo}", True),
        ("{shelf life after opening: 6 mo}", False),
        ("{shelf life after opening: 4 mo, shelf life: 24 mo}", True),
        ("{shelf life: 24 mo}", False),
        ("{shelf life: 3 mo}", True),  # it was bought before it was opened
        ("{shelf life after opening: ask}", False),
        ("{shelf life after opening: {by: season, is: {summer: 1 mo, winter: 6 mo}}}", False),
    ],
)
def test_when_an_open_tin_is_stale(properties: str, stale: bool, tmp_path: Path) -> None:
    primer = material("primer", f"properties: {properties}", "opened: 2026-07-01")
    assert bool(found("material-stale", primer, tmp_path)) is stale


# --- what must not meet -----------------------------------------------------------------------------------

METALS = material("brass") + material("zinc", "apart: brass") + material("lead")


@pytest.mark.parametrize(
    ("lines", "steps", "meet"),
    [
        ("materials: [brass, lead]", "steps: Pour.", False),
        ("materials: brass", "steps: {do: Pour., materials: zinc}", True),
        ("materials: {material: zinc, or: brass}", "steps: Pour.", False),  # the one or the other
        ("materials: {material: zinc, not: brass}", "steps: Pour.", False),
        ("materials: [{material: zinc, or: lead}, brass]", "steps: Pour.", False),  # there is a way
        (
            "materials: [{material: zinc, for: {part: foot}}, {material: brass, for: {part: hood}}]",
            "steps: Pour.", False,
        ),
        (
            "materials: {material: zinc, for: {part: foot}}",
            "steps: {do: Pour., for: {part: [foot, hood]}, materials: brass}", True,
        ),
    ],
)
def test_which_materials_meet_in_a_procedure(lines: str, steps: str, meet: bool, tmp_path: Path) -> None:
    assert bool(found("apart-together", METALS + procedure("cast", lines, steps=steps), tmp_path)) is meet


def test_a_shared_procedure_brings_its_materials_along(tmp_path: Path) -> None:
    melting = procedure("melt", "materials: brass", folder="shared")
    casting = procedure("cast", "materials: zinc", steps="steps: [{use: melt}, Pour.]")
    (one,) = found("apart-together", METALS + melting + casting, tmp_path / "own")
    assert (one.about, one.at.line) == ("cast", 4)  # at the step that brings it
    only_one = procedure("cast", steps="steps:\n  - {use: melt, for: {part: hood}}\n"
                         "  - {do: Pour., for: {part: foot}, materials: zinc}")
    assert not found("apart-together", METALS + melting + only_one, tmp_path / "cases")
    both = procedure("melt", "materials: [brass, zinc]", folder="shared")
    told = found("apart-together", METALS + both + procedure("cast", steps="steps: {use: melt}"), tmp_path / "within")
    assert [f.about for f in told] == ["melt"]


def test_what_a_group_keeps_from_its_members_keep_from_too(tmp_path: Path) -> None:
    acids = material("acids", "members: [vinegar, pickle]", "apart: bleach")
    mix = material("vinegar") + material("pickle") + material("bleach")
    bath = material("bath", "composition: {pickle: 1 part by volume, bleach: 1 part by volume}")
    (one,) = found("apart-together", acids + mix + bath, tmp_path)
    assert "“Pickle” and “Bleach” are both in this mix" in one.message


@pytest.mark.parametrize(
    ("composition", "wrong"),
    [
        ("{copper: 63 %, zinc: 37 %}", False),
        ("{copper: 63 %, zinc: 36 %}", True),
        ("{tin: 33.3 %, lead: 33.3 %, bismuth: 33.3 %}", False),  # rounded
        ("{tin: 33 %, lead: 33 %, bismuth: 33 %}", False),
        ("{copper: max 60 %, zinc: max 40 %}", False),
        ("{copper: max 60 %, zinc: max 39 %}", True),
        ("{copper: min 60 %, zinc: min 41 %}", True),
        ("{copper: about 60 %, zinc: about 42 %}", False),
        ("{copper: about 60 %, zinc: about 20 %}", True),
        ("{copper: 60 %, zinc: rest}", False),
        ("{copper: 60 %, zinc: ask}", False),
        ("{copper: perhaps 60 %, zinc: 30 %}", False),
        ("{paste: 100 parts by weight, hardener: 2 parts by weight}", False),
        ("{paste: 100 parts by weight, hardener: 2 %}", False),
    ],
)
def test_what_adds_up(composition: str, wrong: bool, tmp_path: Path) -> None:
    assert bool(found("composition-sum", material("metal", f"composition: {composition}"), tmp_path)) is wrong


@pytest.mark.parametrize(
    ("group", "member", "contradict"),
    [
        ("max 32 m/s", "max 40 m/s", False),  # the stricter holds
        ("max 32 m/s", "35 m/s", True),
        ("max 32 m/s", "min 32 m/s", False),
        ("20..30 m/s", "31..40 m/s", True),
        ("30 m/s", "30 m/s", False),
        ("30 m/s", "31 m/s", True),
        ("about 30 m/s", "35 m/s", False),
        ("max 32 m/s", "perhaps 40 m/s", False),
        ("max 32 m/s", "{is: 40 m/s, for: {material: brass}}", False),
        ("max 32 m/s", "1800 rev/min", False),
    ],
)
def test_a_member_and_its_group(group: str, member: str, contradict: bool, tmp_path: Path) -> None:
    example = tooling("belt", f"properties: {{rated speed: {member}}}") + tooling(
        "belts", "members: belt", f"properties: {{rated speed: {group}}}"
    )
    assert bool(found("property-doubled", example, tmp_path)) is contradict


# --- what nothing uses ------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("lines", "others", "used"),
    [
        ("because: It shines.", "", False),
        ("materials: filler", "", True),
        ("materials: {material: putty, not: filler}", material("putty"), False),
        ("because: As [[filler]] does.", "", True),
        ("settings: {working time: max filler/pot life}", "", True),
        ("settings: {speed: {by: material, is: {filler: 1 m/s, putty: 2 m/s}}}", material("putty"), True),
        ("points: {point: Press it., for: {material: filler}}", "", True),
        ("makes: filler", "", True),
        ("materials: putty", material("putty", "composition: {filler: 60 %, chalk: rest}"), True),
        ("materials: fillers", material("fillers", "members: [filler]"), True),
        ("materials: putty", material("putty") + material("fillers", "members: [filler, putty]"), False),
        ("materials: putty", material("putty", "apart: filler"), False),
    ],
)
def test_whether_a_material_is_used(lines: str, others: str, used: bool, tmp_path: Path) -> None:
    example = procedure("fill", lines) + material("filler", "properties: {pot life: 5 min}") + others
    told = [f.about for f in found("tool-unused", example, tmp_path)]
    assert ("filler" not in told) is used


def test_a_group_is_used_through_its_members(tmp_path: Path) -> None:
    group = material("filler") + material("fillers", "members: filler")
    assert not found("tool-unused", procedure("fill", "materials: filler") + group, tmp_path)


def test_nothing_is_unused_before_any_work_is_written(tmp_path: Path) -> None:
    assert not found("tool-unused", tooling("belt"), tmp_path)
