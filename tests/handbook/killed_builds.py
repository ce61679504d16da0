"""Kills a publication at every step that touches the disk, and looks at what the next command makes of it.

    python killed_builds.py FOLDER whole|within [FOLDER ON ANOTHER DISK]

Prints `N kills, M left no whole book`, or what was wrong after the first that was not mended. Run by
`test_publishing.py`; a process of its own, because it forks.
"""

from __future__ import annotations

import os
import shutil
import signal
import sys
from pathlib import Path

from site_builder.handbook.publishing.mark import MARK, WORK, write_mark
from site_builder.handbook.publishing.publish import publication, put_right

_TOUCHING = {"open", "os.mkdir", "os.rename", "os.rmdir", "os.remove", "os.chmod", "tempfile.mkdtemp"}
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
        child = os.fork()
        if child == 0:
            publish_and_die(root, target, way, number)
            os._exit(0)
        _, status = os.waitpid(child, 0)
        finished = os.WIFEXITED(status)
        assert finished or os.WTERMSIG(status) == signal.SIGKILL, status
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


def publish_and_die(root: Path, target: Path, way: str, number: int) -> None:
    if way == "within":
        os.chdir(target)  # a folder in which one stands keeps its place, as the root of a disk does
    count = 0

    def touched(event: str, arguments: tuple[object, ...]) -> None:
        nonlocal count
        if event not in _TOUCHING or (event == "open" and not _writes(arguments)):
            return
        count += 1
        if count == number:
            os.kill(os.getpid(), signal.SIGKILL)

    sys.addaudithook(touched)
    with publication(target, root, root / ".cache", lambda _line: None) as under_way:
        write(under_way.making, NEW)
        under_way.finish()


def _writes(arguments: tuple[object, ...]) -> bool:
    flags = arguments[2]
    return isinstance(flags, int) and bool(flags & (os.O_WRONLY | os.O_RDWR))


def write(folder: Path, files: dict[str, str]) -> None:
    for path, text in files.items():
        (folder / path).parent.mkdir(parents=True, exist_ok=True)
        (folder / path).write_text(text)


def read(folder: Path) -> dict[str, str]:
    files = (file for file in folder.rglob("*") if file.is_file() and file.name != MARK and WORK not in str(file))
    return {file.relative_to(folder).as_posix(): file.read_text() for file in files}


if __name__ == "__main__":
    print(main(Path(sys.argv[1]), sys.argv[2], Path(sys.argv[3]) if len(sys.argv) > 3 else None))
