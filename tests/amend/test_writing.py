"""An amendment is written, kept and taken back, also after other edits."""

from __future__ import annotations

import shutil
from datetime import UTC, datetime
from pathlib import Path

import pytest

from site_builder.amend import (
    Conflict,
    Refused,
    Written,
    add_item,
    add_key,
    change,
    history,
    look_up,
    move_item,
    new_file,
    remove_file,
    take_back,
    tree_in,
    write,
)

NOW = datetime(2026, 12, 1, 9, 30, tzinfo=UTC)
FILE = "procedures/bracket/file-the-plate.yml"
TEXT = """\
# how we file
procedure: file-the-plate
title: File the plate
tools: [hand-file]  # the long one
steps:
  - do: Clamp the plate low.
  - do: File across, then along.
    limits:
      flat: max 0.1 mm   # by the straight edge
  - Wipe it.
"""


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    (tmp_path / FILE).parent.mkdir(parents=True)
    (tmp_path / FILE).write_bytes(TEXT.encode())
    return tmp_path


def says(shop: Path) -> str:
    return (shop / FILE).read_bytes().decode()


def seen(shop: Path, *path: str | int) -> object:
    tree = tree_in(shop, FILE)
    assert tree is not None
    return look_up(tree, path)


def test_a_text_is_changed_and_everything_else_stays(shop: Path) -> None:
    step = ("steps", 0, "do")
    made = write(shop, change("Step 1", FILE, step, "Clamp the plate low.", "Clamp it high."), "edda", NOW)
    assert isinstance(made, Written)
    assert made.kept == "2026-12-01-0001"
    assert says(shop) == TEXT.replace("Clamp the plate low.", "Clamp it high.")


def test_a_limit_gets_a_reason_and_its_comment_stays_with_it(shop: Path) -> None:
    made = write(shop, add_key("Why", FILE, ("steps", 1, "limits", "flat"), "max 0.1 mm", "because",
                               "It rocks otherwise: on three legs.", main="is"), "edda", NOW)
    assert isinstance(made, Written)
    assert says(shop) == TEXT.replace("      flat: max 0.1 mm   # by the straight edge\n", """\
      flat:
        is: max 0.1 mm   # by the straight edge
        because: "It rocks otherwise: on three legs."
""")


def test_a_short_step_gets_a_second_key(shop: Path) -> None:
    write(shop, add_key("Why", FILE, ("steps", 2), "Wipe it.", "because", "Grit scratches.", main="do"), "edda", NOW)
    assert says(shop).endswith("  - do: Wipe it.\n    because: Grit scratches.\n")


def test_steps_change_places_as_they_are_written(shop: Path) -> None:
    steps = seen(shop, "steps")
    assert isinstance(steps, list)
    write(shop, move_item("Order", FILE, ("steps",), steps, 1, 2), "edda", NOW)
    assert says(shop).endswith("""\
  - do: Clamp the plate low.
  - Wipe it.
  - do: File across, then along.
    limits:
      flat: max 0.1 mm   # by the straight edge
""")


def test_what_would_be_an_error_is_not_written(shop: Path) -> None:
    made = write(shop, change("Limit", FILE, ("steps", 1, "limits", "flat"), "max 0.1 mm", "max 0.1"), "edda", NOW)
    assert isinstance(made, Refused)
    assert [one.code for one in made.findings] == ["unit-missing"]
    assert says(shop) == TEXT and not (shop / "amendments").exists()


def test_what_somebody_else_wrote_meanwhile_is_shown_and_left(shop: Path) -> None:
    (shop / FILE).write_text(TEXT.replace("Wipe it.", "Brush it."))
    made = write(shop, change("Step 3", FILE, ("steps", 2), "Wipe it.", "Blow on it."), "edda", NOW)
    assert made == Conflict(FILE, ("steps", 2), "Wipe it.", "Brush it.", "Blow on it.", 10)


def test_an_edit_elsewhere_in_the_file_is_no_conflict(shop: Path) -> None:
    (shop / FILE).write_text(TEXT.replace("Wipe it.", "Brush it."))
    made = write(shop, change("Title", FILE, ("title",), "File the plate", "File the plate flat"), "edda", NOW)
    assert isinstance(made, Written)
    assert says(shop) == TEXT.replace("Wipe it.", "Brush it.").replace("File the plate", "File the plate flat")


def test_what_was_written_is_taken_back_byte_by_byte_and_that_too(shop: Path) -> None:
    first = write(shop, add_item("A tool", FILE, ("tools",), ["hand-file"], "bench-vice"), "edda", NOW)
    assert isinstance(first, Written)
    changed = says(shop)
    back = take_back(shop, first.kept, "josk", NOW)
    assert isinstance(back, Written) and says(shop) == TEXT
    assert isinstance(take_back(shop, back.kept, "josk", NOW), Written) and says(shop) == changed
    assert [(one.name, one.who, one.takes_back) for one in history(shop)] == [
        ("2026-12-01-0003", "josk", "2026-12-01-0002"), ("2026-12-01-0002", "josk", "2026-12-01-0001"),
        ("2026-12-01-0001", "edda", None)]


def test_after_edits_elsewhere_its_own_lines_alone_are_taken_back(shop: Path) -> None:
    made = write(shop, change("Limit", FILE, ("steps", 1, "limits", "flat"), "max 0.1 mm", "max 0.2 mm"), "edda", NOW)
    assert isinstance(made, Written)
    (shop / FILE).write_text(says(shop).replace("Wipe it.", "Brush it.").replace("# how we file\n", ""))
    assert isinstance(take_back(shop, made.kept, "edda", NOW), Written)
    assert says(shop) == TEXT.replace("Wipe it.", "Brush it.").replace("# how we file\n", "")


def test_where_its_lines_were_changed_again_both_are_shown(shop: Path) -> None:
    made = write(shop, change("Limit", FILE, ("steps", 1, "limits", "flat"), "max 0.1 mm", "max 0.2 mm"), "edda", NOW)
    assert isinstance(made, Written)
    (shop / FILE).write_text(says(shop).replace("max 0.2 mm", "max 0.3 mm"))
    back = take_back(shop, made.kept, "edda", NOW)
    assert isinstance(back, Conflict)
    assert (back.seen, back.stands, back.shall) == ("max 0.2 mm", "max 0.3 mm", "max 0.1 mm")
    assert "max 0.3 mm" in says(shop)


def test_a_file_is_begun_as_a_careful_hand_would_and_taken_back(shop: Path) -> None:
    name = "procedures/bracket/bend-it.yml"
    made = write(shop, new_file("Bend it", name, {
        "procedure": "bend-it", "title": "Bend it", "part": "bracket",
        "steps": ["Clamp it.", {"do": "Bend it.", "because": ["It is thin.", "It cracks, cold."]}],
    }), "edda", NOW)
    assert isinstance(made, Written)
    assert (shop / name).read_text() == """\
# yaml-language-server: $schema=../../.schemas/procedure.json
procedure: bend-it
title: Bend it
part: bracket
steps:
  - Clamp it.
  - do: Bend it.
    because:
      - It is thin.
      - It cracks, cold.
"""
    assert isinstance(take_back(shop, made.kept, "edda", NOW), Written)
    assert not (shop / name).exists()


def test_a_file_that_is_taken_away_comes_back(shop: Path) -> None:
    tree = tree_in(shop, FILE)
    assert tree is not None
    made = write(shop, remove_file("No filing", FILE, tree), "edda", NOW)
    assert isinstance(made, Written) and not (shop / FILE).exists()
    assert isinstance(take_back(shop, made.kept, "edda", NOW), Written)
    assert says(shop) == TEXT


@pytest.mark.parametrize("name", ["../x.yml", "skills/records/sign-offs.yml", "mkdocs.yml", "procedures/.x.yml",
                                  "procedures/../x.yml", "/etc/x.yml", "tools/x.txt"])
def test_no_other_file_is_touched(shop: Path, name: str) -> None:
    assert isinstance(write(shop, new_file("x", name, {"procedure": "x"}), "edda", NOW), Refused)
    assert not (shop / name).exists() or name.startswith("/")


def test_the_history_goes_along_and_survives_a_copy(shop: Path, tmp_path_factory: pytest.TempPathFactory) -> None:
    made = write(shop, change("Title", FILE, ("title",), "File the plate", "File it"), "edda", NOW)
    assert isinstance(made, Written)
    copied = tmp_path_factory.mktemp("stick") / "shop"
    shutil.copytree(shop, copied)
    assert isinstance(take_back(copied, made.kept, "edda", NOW), Written)
    assert says(copied) == TEXT and says(shop) != TEXT
