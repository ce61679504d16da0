"""Kills a keeping at every step that touches the disk, and looks at what the next one makes of it.

    python -m tests.archive.killed_keeping FOLDER

Prints `N kills, M left no keeping`, or what was wrong after the first that was not mended. Run by `test_keeping.py`;
a process of its own, because it forks.
"""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

from site_builder.archive.bag import AGENT, write_bag
from site_builder.archive.check import NoKeeping, troubles
from site_builder.archive.place import making
from site_builder.handbook.publishing.mark import WORK
from site_builder.handbook.publishing.publish import put_right
from tests.killed import killed_at


def main(home: Path) -> str:
    root, target = home / "notebook", home / "kept"
    (root / "procedures").mkdir(parents=True)
    gone = 0
    for number in range(1, 2000):
        shutil.rmtree(target, ignore_errors=True)
        fill(target, "old")
        finished = killed_at(number, lambda: keep(root, target))
        gone += not whole(target)
        put_right(home, lambda _line: None)
        if not whole(target):
            return f"after kill {number} there is no whole keeping"
        if (target / "data" / "notebook.txt").read_text() not in ({"new"} if finished else {"old", "new"}):
            return f"after kill {number} stands the wrong one"
        if list(home.rglob(f"{WORK}*")):
            return f"after kill {number} something is left over"
        if finished:
            return f"{number - 1} kills, {gone} left no keeping"
    return "it never came to its end"


def fill(folder: Path, what: str) -> None:
    """A small keeping."""
    (folder / "data").mkdir(parents=True)
    for name in ("notebook.txt", "handbook.txt"):
        (folder / "data" / name).write_text(what)
    write_bag(folder, [("Bag-Software-Agent", AGENT)], "Read me.\n")


def whole(target: Path) -> bool:
    """Whether a keeping stands there, and every file of it is what it was."""
    try:
        return not troubles(target)
    except NoKeeping:
        return False


def keep(root: Path, target: Path) -> None:
    """As the command does it."""
    with making(target, root, lambda _line: None) as under_way:
        under_way.folder.rmdir()
        fill(under_way.folder, "new")
        under_way.finish()


if __name__ == "__main__":
    print(main(Path(sys.argv[1])))
