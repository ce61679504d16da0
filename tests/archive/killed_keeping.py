"""Kills a keeping at every step that touches the disk, and looks at what the next one makes of it.

    python killed_keeping.py FOLDER

Prints `N kills, M left no keeping`, or what was wrong after the first that was not mended. Run by `test_keeping.py`;
a process of its own, because it forks.
"""

from __future__ import annotations

import os
import shutil
import signal
import sys
from pathlib import Path

from site_builder.archive.bag import AGENT, write_bag
from site_builder.archive.check import NoKeeping, troubles
from site_builder.archive.place import making
from site_builder.handbook.publishing.mark import WORK
from site_builder.handbook.publishing.publish import put_right

_TOUCHING = {"open", "os.mkdir", "os.rename", "os.rmdir", "os.remove", "os.chmod", "tempfile.mkdtemp"}


def main(home: Path) -> str:
    root, target = home / "notebook", home / "kept"
    (root / "procedures").mkdir(parents=True)
    gone = 0
    for number in range(1, 2000):
        shutil.rmtree(target, ignore_errors=True)
        fill(target, "old")
        child = os.fork()
        if child == 0:
            keep_and_die(root, target, number)
            os._exit(0)
        _, status = os.waitpid(child, 0)
        finished = os.WIFEXITED(status)
        assert finished or os.WTERMSIG(status) == signal.SIGKILL, status
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


def keep_and_die(root: Path, target: Path, number: int) -> None:
    count = 0

    def touched(event: str, arguments: tuple[object, ...]) -> None:
        nonlocal count
        if event not in _TOUCHING or (event == "open" and not _writes(arguments)):
            return
        count += 1
        if count == number:
            os.kill(os.getpid(), signal.SIGKILL)

    sys.addaudithook(touched)
    with making(target, root, lambda _line: None) as under_way:
        under_way.folder.rmdir()
        fill(under_way.folder, "new")
        under_way.finish()


def _writes(arguments: tuple[object, ...]) -> bool:
    flags = arguments[2]
    return isinstance(flags, int) and bool(flags & (os.O_WRONLY | os.O_RDWR))


if __name__ == "__main__":
    print(main(Path(sys.argv[1])))
