"""Tables of amounts: one entry with rows means the same as one entry a row."""

from __future__ import annotations

from pathlib import Path

import pytest

from site_builder.notebook.load import load
from site_builder.notebook.model.procedure import Procedure

HEAD = "procedure: salt-curd\ntitle: Salt the curd\nsteps: [{do: Strew it.}]\n"


def read(tmp_path: Path, text: str) -> tuple[Procedure | None, list[str]]:
    (tmp_path / "procedures").mkdir(exist_ok=True)
    (tmp_path / "procedures" / "salt-curd.yml").write_text(HEAD + text, "utf-8")
    loaded = load(tmp_path)
    told = [f"{f.at.line}:{f.at.column} {f.code} {f.message}" for f in loaded.findings]
    return loaded.notebook.procedures.get("salt-curd"), told


def test_a_table_by_two_variants_is_an_entry_a_cell(tmp_path: Path) -> None:
    procedure, told = read(tmp_path, """
materials:
  - material: salt
    by: [season, milk]
    amount:
      spring: {sweet: 2 lb, ripe: 2.25 lb}
      summer: {sweet: 3 lb}
    note: For a thousand pounds of milk.
""")
    assert procedure is not None and told == []
    assert [(str(m.amount), m.for_, str(m.note)) for m in procedure.materials] == [
        ("2 lb", ({"season": ("spring",), "milk": ("sweet",)},), "For a thousand pounds of milk."),
        ("2.25 lb", ({"season": ("spring",), "milk": ("ripe",)},), "For a thousand pounds of milk."),
        ("3 lb", ({"season": ("summer",), "milk": ("sweet",)},), "For a thousand pounds of milk."),
    ]
    assert procedure.materials[1].amount is not None and procedure.materials[1].amount.at.line == 9


@pytest.mark.parametrize(("written", "meant"), [
    ("time: {by: season, setup: 10 min, each: {spring: 5 min, winter: 4 min}}",
     "time: [{setup: 10 min, each: 5 min, for: {season: spring}}, "
     "{setup: 10 min, each: 4 min, for: {season: winter}}]"),
    ("yield: {by: season, scrap: {spring: 2 %}, rework: {spring: 1 %, summer: 3 %}}",
     "yield: [{scrap: 2 %, rework: 1 %, for: {season: spring}}, {rework: 3 %, for: {season: summer}}]"),
    ("tools: {tool: hoop, by: {name: season}, amount: {spring: 4 hoops, summer: 6 hoops}, for: {milk: sweet}}",
     "tools: [{tool: hoop, amount: 4 hoops, for: {milk: sweet, season: spring}}, "
     "{tool: hoop, amount: 6 hoops, for: {milk: sweet, season: summer}}]"),
])
def test_short_and_long_form_mean_the_same(written: str, meant: str, tmp_path: Path) -> None:
    short, told = read(tmp_path, written)
    long, also_told = read(tmp_path, meant)
    assert [t.split(" ", 1)[1] for t in told] == [t.split(" ", 1)[1] for t in also_told]

    def plain(entry: Procedure | None) -> list[str]:
        assert entry is not None
        hung = [*entry.materials, *entry.tools, *entry.time, *entry.yield_]
        return [str(one.model_dump(exclude={"at", "by"}, serialize_as_any=True, warnings=False)) for one in hung]

    assert plain(short) == plain(long) != []


def test_a_table_that_nothing_reads_is_told_where_it_stands(tmp_path: Path) -> None:
    _, told = read(tmp_path, "materials: [{material: salt, amount: {spring: 2 lb}}]")
    assert told == [
        "4:38 by-unknown A table of amounts stands here, and `by` does not say what each of its levels is."
    ]
