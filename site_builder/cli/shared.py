"""What several commands share: finding the notebook, the day, how to leave."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any, TypeVar

import click

from site_builder.notebook.files import FOLDERS

OK, ERRORS, WRONG_USE = 0, 1, 2

F = TypeVar("F", bound=Callable[..., Any])


def notebook_option(function: F) -> F:
    """``--notebook DIR``: the folder with procedures, skills and tools."""
    return click.option(
        "--notebook", "-n", "folder", type=click.Path(path_type=Path, file_okay=False), default=Path(),
        help="The folder of the notebook (default: this one).",
    )(function)


def today_option(function: F) -> F:
    """``--today DATE``: the day on which due dates and ages are reckoned."""
    return click.option(
        "--today", type=click.DateTime(["%Y-%m-%d"]), default=None,
        help="Reckon ages and due dates for this day (default: the real one).",
    )(function)


def day(today: Any) -> date:
    """The day meant by ``--today``."""
    return today.date() if today is not None else date.today()


def notebook_in(folder: Path) -> Path:
    """The folder, or a clear word that no notebook is there."""
    if not any((folder / name).is_dir() for name in FOLDERS):
        raise click.UsageError(
            f"There is no notebook in {folder.resolve()}: none of {', '.join(FOLDERS)} is there. "
            "Go to its folder, give it with --notebook, or start one: `benchlore new shop DIR`."
        )
    return folder
