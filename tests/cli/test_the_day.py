"""The day at which a notebook is read: given, laid down in its settings, or the real one."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from site_builder.cli.shared import settled_day
from tests.cli.notebook import GOOD, written
from tests.cli.test_check import benchlore

ROOT = Path(__file__).parent.parent.parent
SETTINGS = """site_name: Forge
docs_dir: procedures
theme: {name: material}
plugins:
  - search
  - benchlore: {today: 2026-05-01}
extra: {smile: !!python/name:material.extensions.emoji.twemoji }
"""


def test_the_settings_may_lay_a_day_down(tmp_path: Path) -> None:
    (tmp_path / "mkdocs.yml").write_text(SETTINGS)
    assert settled_day(tmp_path / "mkdocs.yml") == date(2026, 5, 1)


@pytest.mark.parametrize("settings", [
    "", "plugins: [benchlore]", "plugins:\n  benchlore:\n", "- a\n- b", "plugins: {",
    "plugins:\n  - benchlore: {units: both}",
])
def test_settings_without_a_day_lay_none_down(settings: str, tmp_path: Path) -> None:
    (tmp_path / "mkdocs.yml").write_text(settings)
    assert settled_day(tmp_path / "mkdocs.yml") is None
    assert settled_day(tmp_path / "nothing.yml") is None


def test_a_day_that_is_none_is_told_with_what_to_write(tmp_path: Path) -> None:
    root = written(tmp_path, GOOD)
    (root / "mkdocs.yml").write_text(SETTINGS.replace("2026-05-01", "1 May"))
    done = benchlore("check", cwd=root)
    assert (done.returncode, "`today: 1 May` is no day. Write it as 2026-11-25." in done.stderr) == (2, True)


def test_the_demo_says_the_same_whatever_the_day_is() -> None:
    """Its settings lay down the day; nothing in it falls overdue next spring."""
    assert settled_day(ROOT / "mkdocs.yml") == date(2026, 11, 25)
    told = benchlore("check", "--only", "warning", cwd=ROOT).stdout
    assert told == benchlore("check", "--only", "warning", "--today", "2026-11-25", cwd=ROOT).stdout
    later = benchlore("check", "--only", "warning", "--today", "2027-11-25", cwd=ROOT).stdout
    assert later.count("warning[") > told.count("warning[") == 4


def test_a_handbook_says_at_which_day_it_was_read(tmp_path: Path) -> None:
    made = benchlore("new", "shop", "shop", cwd=tmp_path)
    assert made.returncode == 0, made.stderr
    foot = "The notebook is read as it stood on 3 May 2026: what is due is reckoned for that day."
    assert benchlore("build", "--today", "2026-05-03", cwd=tmp_path / "shop").returncode == 0
    assert foot in (tmp_path / "shop" / "site" / "index.html").read_text("utf-8")
