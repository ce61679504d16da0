"""Which files belong to a notebook, and which of them cannot be trusted to."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from site_builder.notebook.finding import At, Finding, Level

FOLDERS = ("procedures", "skills", "tools")
"""The three folders of a notebook; everything beside them is nobody's business."""

ENDINGS = (".yml", ".yaml")


@dataclass(frozen=True, slots=True)
class NotebookFile:
    """A file of the notebook and its path as findings name it."""

    file: Path
    path: str


def notebook_files(root: Path, ending: tuple[str, ...] = ENDINGS) -> Iterator[NotebookFile | Finding]:
    """All files with these endings in order of their paths; what leads outside is a finding."""
    home = root.resolve()
    for folder in FOLDERS:
        for parent, folders, names in os.walk(root / folder):
            folders[:] = sorted(f for f in folders if not f.startswith("."))
            for name in sorted([*names, *(f for f in folders if f.endswith(ending))]):
                if name.startswith(".") or not name.endswith(ending):
                    continue
                file = Path(parent, name)
                path = file.relative_to(root).as_posix()
                if file.is_symlink() and not _inside(file, home):
                    yield Finding(
                        At(path), "link-out", Level.ERROR, "This link leads out of the notebook.",
                        "Put the file itself here, so that it goes along when the notebook is copied.",
                    )
                else:
                    yield NotebookFile(file, path)


def _inside(file: Path, home: Path) -> bool:
    try:
        return file.resolve(strict=True).is_relative_to(home)
    except (OSError, RuntimeError):
        return False
