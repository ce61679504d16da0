"""Probing questions: made from the page, the same each time, and never about what it tells already."""

from __future__ import annotations

from pathlib import Path

import pytest
from test_rules import TODAY

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.example import write_example
from site_builder.checks.probes import KINDS, LEAST, MOST, probes

GRIND = """\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {foot: Foot}
products: {lantern: {title: Storm lantern, of: {foot: 1}}}
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
steps: Pour.
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
after: cast-foot
tools: [belt-grinder, belt]
materials: belt-grease
conditions: {room temperature: 10..30 °C}
time: about 5 min
limits: {flatness of the sole: {is: max 0.1 mm, with: feeler-gauges}}
troubles: [{sign: It rocks.}, {sign: It slopes.}]
steps:
  - {do: Sweep it along the belt., settings: {belt speed: 18 m/s, pressure: lowest that still cuts}}
  - {do: Press each corner., feel: {sense: sound, good: It is dead., bad: It clicks.}}
  - Rack it.
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
=== tools/tooling/belt.yml
tooling: belt
title: Belt, P80
=== tools/materials/belt-grease.yml
material: belt-grease
title: Belt grease, stick
=== tools/gauges/feeler-gauges.yml
gauge: feeler-gauges
title: Feeler gauges
"""
BARE = "=== procedures/{0}.yml\nprocedure: {0}\ntitle: {1}\nsteps: {2}\n"


def surveyed(example: str, folder: Path) -> Analysis:
    write_example(example, folder)
    return analysis(folder, TODAY)


def texts(example: str, folder: Path, id_: str) -> str:
    return "\n".join(probe.text for probe in probes(surveyed(example, folder), id_)).replace("\u00a0", " ")


def test_the_kinds_are_those_of_the_knowledge_audit() -> None:
    """Militello and Hutton 1998, Ergonomics 41 (11): six basic probes, then two optional ones (from memory)."""
    assert KINDS == (
        "past and future", "big picture", "noticing", "job smarts", "opportunities and improvising",
        "self-monitoring", "anomalies", "equipment difficulties",
    )


def test_every_kind_is_there_even_where_the_page_tells_next_to_nothing(tmp_path: Path) -> None:
    found = probes(surveyed(BARE.format("file-arm", "File the arm", "File along the seam."), tmp_path), "file-arm")
    assert {probe.kind for probe in found} == set(KINDS)
    assert LEAST <= len(found) <= MOST


def test_a_full_page_gets_more_and_never_more_than_twelve(tmp_path: Path) -> None:
    found = probes(surveyed(GRIND, tmp_path), "grind-foot")
    assert len(found) == MOST
    assert [KINDS.index(probe.kind) for probe in found] == sorted(KINDS.index(probe.kind) for probe in found)
    assert len({probe.text for probe in found}) == MOST


def test_they_are_the_same_at_every_run(tmp_path: Path) -> None:
    again = surveyed(GRIND, tmp_path / "again")
    assert probes(surveyed(GRIND, tmp_path / "once"), "grind-foot") == probes(again, "grind-foot")


def test_they_speak_of_the_tools_the_figures_and_the_work_around(tmp_path: Path) -> None:
    asked = texts(GRIND, tmp_path, "grind-foot")
    assert "“Cast the foot”" in asked
    assert "storm lantern" in asked
    assert "belt grinder" in asked or "belt grease" in asked
    assert "flatness of the sole" in asked or "2 troubles" in asked or "10 to 30 °C" in asked


def test_two_pages_that_tell_the_same_do_not_get_the_same_probes(tmp_path: Path) -> None:
    other = GRIND.replace("grind-foot", "true-the-sole").replace("Grind the foot flat", "True the sole")
    one, two = texts(GRIND, tmp_path / "a", "grind-foot"), texts(other, tmp_path / "b", "true-the-sole")
    assert set(one.split("\n")) & set(two.split("\n")) != set(one.split("\n"))
    assert one.replace("Grind the foot flat", "True the sole") != two


@pytest.mark.parametrize(
    ("line", "probe", "answer"),
    [
        ("tools: belt", "do without the belt", "tools: {tool: belt, or: belt-p60}"),
        ("materials: belt-grease", "out of belt grease", "materials: {material: belt-grease, or: tallow}"),
    ],
)
def test_what_may_stand_in_is_not_asked_where_it_is_told(
    line: str, probe: str, answer: str, tmp_path: Path
) -> None:
    page = BARE.format("grind-foot", "Grind the foot flat", "Sweep it.")
    things = GRIND[GRIND.index("=== tools/"):]
    assert probe in texts(f"{page}{line}\n{things}", tmp_path / "open", "grind-foot")
    assert probe not in texts(f"{page}{answer}\n{things}", tmp_path / "told", "grind-foot")


def test_the_sound_of_a_machine_is_not_asked_where_the_page_tells_a_sound(tmp_path: Path) -> None:
    page = BARE.format("grind-foot", "Grind the foot flat", "Sweep it.") + "tools: belt-grinder\n"
    things = GRIND[GRIND.index("=== tools/"):]
    sound = "feel: {sense: sound, good: It hums.}\n"
    assert "hear the belt grinder" in texts(page + things, tmp_path / "silent", "grind-foot")
    assert "hear the belt grinder" not in texts(page + sound + things, tmp_path / "told", "grind-foot")


def test_nobody_is_asked_how_to_do_without_a_machine(tmp_path: Path) -> None:
    only = GRIND.replace("tools: [belt-grinder, belt]", "tools: belt-grinder")
    assert "do without the belt grinder" not in texts(only, tmp_path, "grind-foot")


def test_an_unknown_procedure_is_a_key_error(tmp_path: Path) -> None:
    with pytest.raises(KeyError):
        probes(surveyed(GRIND, tmp_path), "paint-foot")
