"""``for: {flour: rye or wheat}``: this or that, as it is said at the bench."""

from __future__ import annotations

from pathlib import Path

from site_builder.notebook.load import load

PAGE = """\
procedure: mix
title: Mix the dough
variants: {{flour: {{values: [rye, wheat, spelt], decided: at the bin}}}}
steps:
  - do: Mix it long.
    for: {{flour: {values}}}
"""


def values(folder: Path, written: str) -> list[tuple[str, int]]:
    file = folder / "procedures" / "mix.yml"
    file.parent.mkdir(exist_ok=True)
    file.write_text(PAGE.format(values=written), "utf-8")
    step = load(folder).notebook.procedures["mix"].steps[0]
    return [(str(one), one.column) for row in step.for_ for found in row.values() for one in found]


def test_this_or_that_are_two_values_each_at_its_own_place(tmp_path: Path) -> None:
    assert values(tmp_path, "rye or wheat") == [("rye", 18), ("wheat", 25)]


def test_in_a_list_an_or_belongs_to_the_name(tmp_path: Path) -> None:
    assert [name for name, _ in values(tmp_path, "[rye or wheat, spelt]")] == ["rye or wheat", "spelt"]


def test_one_value_stays_one(tmp_path: Path) -> None:
    assert values(tmp_path, "orchard") == [("orchard", 18)]
