"""A small sound notebook for the tests of commands."""

from __future__ import annotations

from pathlib import Path

GOOD = """\
procedure: grind
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    time: 2 min
"""


def written(folder: Path, procedure: str) -> Path:
    """The notebook, with this as its only procedure."""
    (folder / "procedures").mkdir(exist_ok=True)
    (folder / "procedures" / "grind.yml").write_text(procedure, "utf-8")
    return folder
