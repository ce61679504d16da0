"""Kills a writer at every step that touches the disk, and looks at what the next one finds.

    python -m tests.amend.killed_writes FOLDER

Prints `N kills`, or what was wrong after the first that was not mended. Run by `test_killed.py`; a process of its own,
because it forks.
"""

from __future__ import annotations

import shutil
import sys
from datetime import UTC, datetime
from pathlib import Path

from site_builder.amend import Amendment, Change, Renaming, Words, Written, history, take_back, write
from site_builder.amend.write import lock
from tests.killed import killed_at

NOW = datetime(2026, 12, 1, tzinfo=UTC)
OLD = {
    "procedures/a/one.yml": "procedure: one\ntitle: One\nsteps:\n  - Do it.  # well\n",
    "procedures/a/two.yml": "procedure: two\ntitle: Two\nafter: one\nsteps: [Rest.]\n",
    "procedures/stories/tale.md": "# Tale\n\nFirst [[one]].\n",
}
ACT = Amendment("One is called first", (
    Change("procedures/a/one.yml", ("procedure",), "one", "first"),
    Change("procedures/a/two.yml", ("after",), "one", "first"),
    Change("procedures/a/three.yml", (), None, {"procedure": "three", "title": "Three", "steps": ["Go."]}),
), (Renaming("procedures/a/one.yml", "procedures/a/first.yml"),),
    (Words("procedures/stories/tale.md", 16, "one", "first"),))


def main(home: Path) -> str:
    fresh(home)
    assert isinstance(write(home, ACT, "edda", NOW), Written)
    new = read(home)
    for number in range(1, 500):
        fresh(home)
        finished = killed_at(number, lambda: write(home, ACT, "edda", NOW))
        wrong = whole(home, new)
        if wrong:
            return f"after kill {number}: {wrong}"
        with lock(home):
            pass
        stands, kept = read(home), len(list(history(home)))
        if finished and (stands, kept) != (new, 1):
            return f"what was acknowledged is not there: {stands}"
        if (stands, kept) not in ((OLD, 0), (new, 1)):
            return f"after kill {number} it was not put right: {stands}, {kept} kept"
        left = [one.name for one in home.rglob("*amending")] + [one.name for one in home.rglob(".pending*")]
        if left:
            return f"after kill {number} there is left: {left}"
        if stands == new and not isinstance(take_back(home, "2026-12-01-0001", "edda", NOW), Written):
            return f"after kill {number} it cannot be taken back"
        if read(home) != OLD:
            return f"after kill {number}, taken back: {read(home)}"
        if finished:
            return f"{number - 1} kills"
    return "it never came to its end"


def whole(home: Path, new: dict[str, str]) -> str:
    """What is wrong before anybody puts it right: a file that is neither the old nor the new one."""
    for name, text in read(home).items():
        if text not in (OLD.get(name), new.get(name)):
            return f"{name} is torn: {text!r}"
    return ""


def fresh(home: Path) -> None:
    for folder in ("procedures", "amendments"):
        shutil.rmtree(home / folder, ignore_errors=True)
    for path, text in OLD.items():
        (home / path).parent.mkdir(parents=True, exist_ok=True)
        (home / path).write_text(text)


def read(home: Path) -> dict[str, str]:
    files = (file for file in (home / "procedures").rglob("*") if file.is_file() and not file.name.startswith("."))
    return {file.relative_to(home).as_posix(): file.read_text() for file in files}


if __name__ == "__main__":
    print(main(Path(sys.argv[1])))
