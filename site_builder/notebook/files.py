"""Which files belong to a notebook, and which of them cannot be trusted to."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from site_builder.notebook.finding import At, Finding, Level

FOLDERS = ("procedures", "skills", "tools")
"""The three folders of a notebook; everything beside them is nobody's business."""

ENDINGS = (".yml", ".yaml")

_PUT_HERE = "Put it here itself, so that it goes along when the notebook is copied."


@dataclass(frozen=True, slots=True)
class NotebookFile:
    """A file of the notebook and its path as findings name it."""

    file: Path
    path: str


def notebook_files(root: Path, ending: tuple[str, ...] = ENDINGS) -> Iterator[NotebookFile | Finding]:
    """All files with these endings in order of their paths; what is not read is a finding."""
    home = root.resolve()
    for folder in FOLDERS:
        if not os.path.lexists(root / folder):
            continue
        closed: list[OSError] = []
        for parent, folders, names in os.walk(root / folder, onerror=closed.append):
            folders[:] = sorted(f for f in folders if not f.startswith("."))
            linked = {name for name in folders if Path(parent, name).is_symlink()}
            for name in sorted([*names, *folders]):
                file = Path(parent, name)
                if name in linked:
                    yield _error(root, file, "link-out",
                                 "This folder is a link; what stands in it is not read.", _PUT_HERE)
                elif ending == ENDINGS and not name.lower().endswith(ENDINGS) and _is_special(file):
                    yield _error(root, file, "file-unreadable", "This is no ordinary file.",
                                 "Move it out of the notebook.")
                elif name.startswith(".") or not name.lower().endswith(ending):
                    continue
                elif file.is_symlink() and not _inside(file, home):
                    yield _error(root, file, "link-out", "This link leads out of the notebook.", _PUT_HERE)
                else:
                    yield NotebookFile(file, path_of(root, file))
        for problem in closed:
            yield _error(root, Path(problem.filename or root / folder), "file-unreadable",
                         f"This folder cannot be read: {problem.strerror}.", "Check its permissions.")


def path_of(root: Path, file: Path) -> str:
    """The path as findings name it; what cannot be printed is replaced."""
    path = file.relative_to(root).as_posix()
    return "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in path)


def _is_special(file: Path) -> bool:
    """Whether this is a pipe, a socket or a device: what reads it waits for ever."""
    try:
        kind = stat.S_IFMT(file.lstat().st_mode)
    except OSError:
        return False
    return kind not in (stat.S_IFREG, stat.S_IFDIR, stat.S_IFLNK)


def _inside(file: Path, home: Path) -> bool:
    """Whether a link ends within the notebook; one that goes round in a circle ends nowhere else."""
    try:
        return file.resolve().is_relative_to(home)
    except (OSError, RuntimeError):
        return True


def _error(root: Path, file: Path, code: str, message: str, fix: str) -> Finding:
    return Finding(At(path_of(root, file)), code, Level.ERROR, message, fix)
