"""What several commands share: finding the notebook, the day, how to leave."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from pathlib import Path
from typing import Any, TypeVar

import click
import yaml

from site_builder.handbook.publishing.mark import WORK
from site_builder.notebook.files import FOLDERS

OK, ERRORS, WRONG_USE = 0, 1, 2

F = TypeVar("F", bound=Callable[..., Any])


def notebook_option(function: F) -> F:
    """``--notebook DIR``: the folder with procedures, skills and tools."""
    return click.option(
        "--notebook", "-n", "folder", type=click.Path(path_type=Path, file_okay=False), default=Path(),
        help="The folder of the notebook (default: this one).",
    )(function)


def path_argument(function: F) -> F:
    """``[PATH]``: the notebook, or something in it."""
    return click.argument("path", required=False, default=None, type=click.Path(path_type=Path, exists=True))(function)


def notebook_at(path: Path | None, folder: Path) -> tuple[Path, str]:
    """The notebook that a path or ``--notebook`` means, and what within it the path names; "" for all of it.

    A path within a notebook is told as the notebook tells its own, with ``/`` and without what leads to it.
    """
    if path is None:
        return notebook_in(folder), ""
    root = notebook_in(path if path.is_dir() else path.absolute().parent)
    within = path.resolve().relative_to(root.resolve()).as_posix()
    return root, "" if within == "." else within


def today_option(function: F) -> F:
    """``--today DATE``: the day on which due dates and ages are reckoned."""
    return click.option(
        "--today", type=click.DateTime(["%Y-%m-%d"]), default=None,
        help="Reckon ages and due dates for this day (default: `today` in mkdocs.yml, else the real one).",
    )(function)


def day(given: Any, folder: Path) -> date:
    """The day meant by ``--today``, else the day at which the notebook is always read, else the real one."""
    if given is not None:
        own: date = given.date()
        return own
    return settled_day((_root_of(folder) or folder) / "mkdocs.yml") or date.today()


def settled_day(settings: Path) -> date | None:
    """The day that the settings of a handbook lay down under ``today`` of the plugin, if they do.

    A notebook that stands for an example is read at a day of its own, so that nothing in it falls overdue.
    """
    given = _own_settings(settings).get("today")
    try:
        return date.fromisoformat(str(given)) if given else None
    except ValueError:
        raise click.UsageError(f"{settings}: `today: {given}` is no day. Write it as 2026-11-25.") from None


def _own_settings(settings: Path) -> Mapping[str, Any]:
    """What stands under the plugin in the settings of a handbook; nothing if they cannot be read."""
    if not settings.is_file():  # none, or a pipe, from which a reader would wait for ever
        return {}
    try:
        tree = yaml.load(settings.read_text("utf-8"), yaml.CBaseLoader)  # builds texts only
    except (OSError, UnicodeDecodeError, yaml.YAMLError):
        return {}
    plugins = tree.get("plugins") if isinstance(tree, dict) else None
    for plugin in plugins if isinstance(plugins, list) else [plugins]:
        own = plugin.get("benchlore") if isinstance(plugin, dict) else None
        if isinstance(own, dict):
            return own
    return {}


def notebook_in(folder: Path) -> Path:
    """The notebook in which ``folder`` stands, or a clear word that there is none.

    What a killed build left beside the handbook is put right on the way, and told.
    """
    root = _root_of(folder)
    if root is None:
        raise click.UsageError(
            f"There is no notebook in {folder.resolve()}: none of {', '.join(FOLDERS)} is there. "
            "Go to its folder, give it with --notebook, or start one: `benchlore new shop DIR`."
        )
    if any(root.glob(f"{WORK}*")):
        from site_builder.handbook.publishing.publish import put_right  # hardly ever needed, and slow to load

        put_right(root.resolve(), lambda line: click.echo(line, err=True))
    return root


def _root_of(folder: Path) -> Path | None:
    """The folder itself, or the one above it that is a notebook in one of whose folders it stands."""
    here = folder.resolve()
    found = folder if _holds(here, FOLDERS) else None
    for above in here.parents:
        settings = (above / "mkdocs.yml").is_file()
        inside = here.relative_to(above).parts[0] in FOLDERS and (settings or (above / FOLDERS[0]).is_dir())
        if inside or (found is None and settings and _holds(above, FOLDERS)):
            found = above
    return found


def _holds(folder: Path, names: Iterable[str]) -> bool:
    return any((folder / name).is_dir() for name in names)
