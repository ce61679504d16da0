"""What a slip of the hand pastes: tens of thousands of letters without a blank, wherever words may stand.

``check`` ends, tells it at its line where it cannot be read, and works no more than its length. That no regular
expression goes back and forth in it, which is not seen in calls, is tried in ``tests/patterns``.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine
from site_builder.notebook.finding import Finding, Level
from tests.calls import calls_of

LETTERS, FIGURES = "a" * 80_000, "1.." * 30_000
SHOP = """\
shop: cooperage
title: Cooperage
accident: [Stop the work., Call for help.]
parts: {stave: {title: Stave}}
"""
WORK = """\
procedure: shave
title: Shave the stave
part: stave
steps:
  - id: edge
    do: Shave the edge.
    limits: {gap: max 0.5 mm}
"""
STORY = "# The old cooper\n\nHe never measured.\n"

PLACES: Mapping[str, tuple[str, str, str]] = {
    "value": ("shave.yml:7", "max 0.5 mm", "value-broken"),
    "key": ("shave.yml:3", "part", "yaml-broken"),
    "name of a value": ("shave.yml:7", "gap", "yaml-broken"),
    "id": ("shave.yml:3", "stave\nsteps", "reference-none"),
    "do": ("shave.yml:6", "Shave the edge.", ""),
    "title": ("shave.yml:2", "Shave the stave", ""),
    "story": ("cooper.md:3", "He never measured.", ""),
    "link in a story": ("cooper.md:3", "He never", "link-none"),
}
"""Where it stands instead of which words, and what tells it; a text may be as long as it likes."""


def found(root: Path, place: str, long: str) -> list[Finding]:
    _, words, _ = PLACES[place]
    put = f"[[{long}]]" if place.startswith("link") else long + ("\nsteps" if place == "id" else "")
    for path, text in (("shop.yml", SHOP), ("shave.yml", WORK), ("stories/cooper.md", STORY)):
        file = root / "procedures" / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text.replace(words, put, 1) if file.name in PLACES[place][0] else text, "utf-8")
    surveyed = analysis(root, date(2026, 3, 2))
    return sorted({*surveyed.reading, *examine(surveyed)})


@pytest.mark.parametrize("long", [LETTERS, FIGURES], ids=["letters", "figures"])
@pytest.mark.parametrize("place", PLACES)
def test_it_is_told_at_its_line_or_is_a_text(place: str, long: str, tmp_path: Path) -> None:
    errors = [(f"{Path(one.at.path).name}:{one.at.line}", one.code)
              for one in found(tmp_path, place, long) if one.level is Level.ERROR]
    where, _, code = PLACES[place]
    assert (where, code) in errors if code else not [one for one in errors if one[0] == where]


@pytest.mark.parametrize("turn", ["a", "1.."])
@pytest.mark.parametrize("place", PLACES)
def test_twice_the_letters_are_at_most_twice_the_work(place: str, turn: str, tmp_path: Path) -> None:
    def counted(number: int) -> int:
        return calls_of(lambda: found(tmp_path, place, turn * number))

    counted(2000)  # what is made ready once
    few, more, many = counted(2000), counted(4000), counted(8000)
    assert many - more <= 2.2 * max(more - few, 0) + 500
