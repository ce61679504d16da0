"""Kills a publication at every step that touches the disk, and looks at what the next command makes of it.

    python -m tests.handbook.killed_builds FOLDER whole|within [FOLDER ON ANOTHER DISK]

Prints `N kills, M left no whole book`, or what was wrong after the first that was not mended. Run by
`test_publishing.py`; a process of its own, because it forks.
"""

from __future__ import annotations

import os
import shutil
import sys
from pathlib import Path

from site_builder.handbook.publishing.mark import MARK, WORK, write_mark
from site_builder.handbook.publishing.publish import publication, put_right
from tests.killed import killed_at

OLD = {"index.html": "old", "work/a.html": "old a", "gone.html": "old"}
NEW = {"index.html": "new", "work/a.html": "new a", "work/b.html": "new b"}


def main(home: Path, way: str, disk: Path | None) -> str:
    root = home / "notebook"
    (root / "procedures").mkdir(parents=True)
    target = (disk or root) / "site"
    torn = 0
    for number in range(1, 2000):
        shutil.rmtree(target, ignore_errors=True)
        write(target, OLD)
        write_mark(target)
        (root / "site.old").mkdir(exist_ok=True)
        (root / "site.old" / "letter.txt").write_text("mine")
        finished = killed_at(number, lambda: publish(root, target, way))
        torn += not finished and read(target) not in (OLD, NEW)
        for holder in (target.parent, target, root / ".cache"):
            put_right(holder, lambda _line: None)
        stands = read(target)
        if stands != (NEW if finished else OLD) and stands != NEW:
            return f"after kill {number}: {stands}"
        left = [*root.rglob(f"{WORK}*"), *target.parent.rglob(f"{WORK}*")]
        if left:
            return f"after kill {number} there is left: {left}"
        if (root / "site.old" / "letter.txt").read_text() != "mine":
            return "a folder of the user's was touched"
        if finished:
            return f"{number - 1} kills, {torn} left no whole book"
    return "it never came to its end"


def publish(root: Path, target: Path, way: str) -> None:
    """As the command does it."""
    if way == "within":
        os.chdir(target)  # a folder in which one stands keeps its place, as the root of a disk does
    with publication(target, root, root / ".cache", lambda _line: None) as under_way:
        write(under_way.making, NEW)
        under_way.finish()


def write(folder: Path, files: dict[str, str]) -> None:
    for path, text in files.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text)


def read(folder: Path) -> dict[str, str]:
    files = (file for file in folder.rglob("*") if file.is_file() and file.name != MARK and WORK not in str(file))
    return {file.relative_to(folder).as_posix(): file.read_text() for file in files}


if __name__ == "__main__":
    print(main(Path(sys.argv[1]), sys.argv[2], Path(sys.argv[3]) if len(sys.argv) > 3 else None))
