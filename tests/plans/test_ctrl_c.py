"""Ctrl-C while a season is planned, pressed on a real process: the best plan so far is told and kept."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from types import ModuleType

import pytest
from click.testing import CliRunner

from site_builder.analysis.analysis import analysis
from site_builder.checks.example import write_example
from site_builder.cli.season import season
from site_builder.plans import make
from site_builder.season import solve
from tests.plans.hinges import SHOP

MORE = """\
=== procedures/leaf/file-leaf.yml
procedure: file-leaf
title: File the leaf
skill: punching
after: punch-leaf
time: {setup: 20 min, each: 7 min}
steps: File it.
=== procedures/leaf/blue-leaf.yml
procedure: blue-leaf
title: Blue the leaf
skill: punching
after: file-leaf
time: {setup: 25 min, each: 6 min}
steps: Blue it.
"""
"""So much work that a search through it for the calmest plan takes hours."""


def _hears_ctrl_c() -> None:
    """What runs in the background of a shell without job control would ignore it, and so would its children."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


@contextmanager
def planning(root: Path) -> Iterator[subprocess.Popen[str]]:
    """``season plan`` with a search that would go on for hours, as a process of its own."""
    words = [sys.executable, "-m", "site_builder.cli", "season", "plan", "spring", "--effort", "100000",
             "-n", str(root), "--today", "2027-02-01"]
    process = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env=os.environ,
                               preexec_fn=_hears_ctrl_c)
    try:
        yield process
    finally:
        process.kill()
        process.communicate()


def pressed_at(process: subprocess.Popen[str], words: str) -> str:
    """What is told when Ctrl-C is pressed as soon as these words are read."""
    assert process.stderr is not None
    assert any(words in line for line in process.stderr)
    process.send_signal(signal.SIGINT)
    told, _ = process.communicate()
    return " ".join(told.split())


@pytest.fixture
def large(tmp_path: Path) -> Path:
    before, _, rest = SHOP.partition("=== procedures/leaf/blue-leaf.yml")
    write_example(before + MORE + rest[rest.index("=== procedures/hinge"):].replace("pieces: 40", "pieces: 90"),
                  tmp_path)
    return tmp_path


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    write_example(SHOP.replace("pieces: 40", "pieces: 12"), tmp_path)
    return tmp_path


def test_ctrl_c_in_the_search_gives_the_best_so_far(large: Path) -> None:
    with planning(large) as process:
        told = pressed_at(process, "ends on day")
        assert process.returncode == 0
    assert "90 by 30 April 2027" in told
    assert "It was stopped there." in told
    kept = tuple((large / "procedures/seasons").iterdir())
    assert len(kept) == 1
    known = analysis(large, date(2027, 2, 1))
    assert sum(int(str(one.pieces)) for one in known.notebook.seasons[kept[0].stem].work
               if one.does == "pin-hinge" and one.pieces is not None) == 90
    looked = CliRunner().invoke(season, ["check", "spring", "-n", str(large), "--today", "2027-02-01"])
    assert "none breaks a rule" in looked.stdout


def pressed(*_: object, **__: object) -> None:
    raise KeyboardInterrupt


def planned(shop: Path) -> str:
    told = CliRunner().invoke(season, ["plan", "spring", "--effort", "1", "-n", str(shop), "--today", "2027-02-01"])
    return f"{told.exit_code}: {' '.join((told.stdout + told.stderr).split())}"


def test_ctrl_c_before_there_is_a_plan_says_so_and_writes_nothing(
    shop: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(solve, "first_plan", pressed)
    assert "Stopped before there was a plan. Nothing was written." in planned(shop)
    assert not (shop / "procedures/seasons").exists()


@pytest.mark.parametrize("where", [(solve, "Loose"), (solve, "ByDays"), (make, "narrow"), (make, "play")])
def test_ctrl_c_anywhere_later_keeps_the_plan_there_is(
    shop: Path, monkeypatch: pytest.MonkeyPatch, where: tuple[ModuleType, str]
) -> None:
    monkeypatch.setattr(*where, pressed)
    told = planned(shop)
    assert told.startswith("0: ")
    assert "It was stopped there." in told
    assert "Written:" in told
    assert "None" not in told
