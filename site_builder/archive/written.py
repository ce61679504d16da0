"""The files of a notebook as they were written: the three folders, its settings, and what editors are led to."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

from site_builder.handbook.publishing.mark import by_system
from site_builder.notebook.files import FOLDERS

BESIDE = ("mkdocs.yml", ".gitignore")
SCHEMAS = ".schemas"


def written_files(root: Path) -> Iterator[tuple[str, Path]]:
    """(path in the notebook, file) of each, in order. A link within the notebook counts as what it leads to."""
    home = root.resolve()
    for name in BESIDE:
        if (root / name).is_file():
            yield name, root / name
    for folder in (SCHEMAS, *FOLDERS):
        for parent, folders, names in os.walk(root / folder):
            folders[:] = sorted(one for one in folders if not (Path(parent) / one).is_symlink() and one != ".git")
            for name in sorted(names):
                file = Path(parent, name)
                if _is_kept(file, home):
                    yield file.relative_to(root).as_posix(), file


def left_out(root: Path) -> Iterator[str]:
    """Paths in the notebook's folders that cannot be kept: links that lead out of it, pipes, devices."""
    home = root.resolve()
    for folder in FOLDERS:
        for parent, folders, names in os.walk(root / folder):
            links = [one for one in folders if (Path(parent) / one).is_symlink()]
            for name in sorted((*names, *links)):
                file = Path(parent, name)
                if not _is_passed_over(name) and not _is_kept(file, home):
                    yield file.relative_to(root).as_posix()


def _is_kept(file: Path, home: Path) -> bool:
    try:
        return not _is_passed_over(file.name) and file.is_file() and file.resolve().is_relative_to(home)
    except (OSError, RuntimeError):
        return False


def _is_passed_over(name: str) -> bool:
    """What systems and locks leave behind; it belongs to a machine and not to a notebook."""
    return by_system(name) or (name.startswith(".") and name.endswith(".lock"))
