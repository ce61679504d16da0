"""Writers that are killed, and many at once. Run as a program of its own, so that it can fork freely.

    writers.py points DIR          kill one writer at each of its calls of the system, and within each write
    writers.py random DIR TIMES    kill writers at moments of chance
    writers.py crowd DIR           eight writers at once
"""

from __future__ import annotations

import itertools
import json
import os
import random
import shutil
import signal
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from site_builder.skills.append import append
from site_builder.skills.book import read_book
from site_builder.skills.chain import verify

KIND = "practice"
CALLS = ("open", "write", "fsync", "replace", "ftruncate", "close")


def entry(note: str) -> dict[str, str]:
    return {"who": "ansa", "date": "2026-05-09", "procedure": "pack-lantern", "pieces": "14", "note": note}


def in_a_child(work: Callable[[], None]) -> int:
    """Run something in a process of its own; its exit status."""
    child = os.fork()
    if child == 0:
        try:
            work()
        except BaseException:
            os._exit(3)
        os._exit(0)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def killed_at(point: int, share: float) -> Callable[[], None]:
    """Let this process be killed at its ``point``-th call; a write puts down a share of its bytes first."""
    counted = itertools.count()

    def watch(name: str, real: Callable[..., Any]) -> Callable[..., Any]:
        def call(*given: Any, **named: Any) -> Any:
            if next(counted) == point:
                if name == "write" and share:
                    real(given[0], bytes(given[1])[: max(1, int(len(given[1]) * share))])
                os.kill(os.getpid(), signal.SIGKILL)
            return real(*given, **named)

        return call

    for name in CALLS:
        setattr(os, name, watch(name, getattr(os, name)))
    return lambda: None


def look(root: Path, acknowledged: list[str]) -> dict[str, Any]:
    """What stands after a kill and one more writer: the notes in the book, and what was set aside."""
    written = append(root, KIND, entry("the next one"))
    book = read_book(root, KIND)
    notes = [one.text("note") for one in book.entries]
    aside = sorted(file.read_text("utf-8", "replace") for file in book_files(root) if ".torn-" in file.name)
    return {
        "faults": [fault.message for fault in verify(book, {})], "notes": notes, "aside": aside,
        "lost": [note for note in acknowledged if note not in notes], "reported": written.set_aside is not None,
    }


def book_files(root: Path) -> list[Path]:
    return [*(root / "skills" / "records").iterdir()]


def points(root: Path) -> list[dict[str, Any]]:
    """Every call of the system that an append makes, in a new book and in one with two entries."""
    told = []
    for before, share in itertools.product((0, 2), (0.0, 0.02, 0.5, 0.999)):
        for point in itertools.count():
            here = root / f"{before}-{share}-{point}"
            acknowledged = [append(here, KIND, entry(f"before {n}")) and f"before {n}" for n in range(before)]

            def work(here: Path = here, point: int = point, share: float = share) -> None:
                killed_at(point, share)
                append(here, KIND, entry("the one that is killed"))

            status = in_a_child(work)
            told.append({"point": point, "share": share, "status": status, **look(here, acknowledged)})
            shutil.rmtree(here)
            if status == 0:
                break
    return told


def at_random(root: Path, times: int) -> list[dict[str, Any]]:
    """A writer that acknowledges each entry through a pipe, killed at a moment of chance, over and over.

    It is let go on until as many entries as chance says are acknowledged, and is killed a moment after that.
    """
    chance, told, acknowledged = random.Random(570), [], []
    for round_ in range(times):
        reading, writing = os.pipe()
        child = os.fork()
        if child == 0:
            for number in itertools.count():
                note = f"{round_}-{number}"
                append(root, KIND, entry(note))
                os.write(writing, f"{note}\n".encode())
        os.close(writing)
        with os.fdopen(reading) as pipe:
            heard = [pipe.readline() for _ in range(chance.randrange(3))]
            time.sleep(chance.uniform(0.0, 0.01))
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
            acknowledged += ("".join(heard) + pipe.read()).split("\n")[:-1]
    told.append(look(root, acknowledged) | {"acknowledged": len(acknowledged)})
    return told


def crowd(root: Path) -> list[dict[str, Any]]:
    """Eight writers at once, twenty entries each."""
    children = []
    for writer in range(8):
        child = os.fork()
        if child == 0:
            try:
                for number in range(20):
                    append(root, KIND, entry(f"{writer}-{number}"))
            except BaseException:
                os._exit(3)
            os._exit(0)
        children.append(child)
    statuses = [os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) for child in children]
    return [look(root, [f"{w}-{n}" for w in range(8) for n in range(20)]) | {"statuses": statuses}]


if __name__ == "__main__":
    folder = Path(sys.argv[2])
    found = {"points": points, "crowd": crowd}.get(sys.argv[1], lambda r: at_random(r, int(sys.argv[3])))(folder)
    print(json.dumps(found))
