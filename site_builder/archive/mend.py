"""A keeping mended from another copy: only with files that are, bit for bit, what was kept. Nothing is thrown away."""

from __future__ import annotations

import os
import shutil
from collections.abc import Iterable
from pathlib import Path

from site_builder.archive.bag import digest
from site_builder.archive.check import Trouble
from site_builder.handbook.publishing.copying import Damaged, folder_to_disk


def mend(folder: Path, found: Iterable[Trouble]) -> list[str]:
    """Put back what can be had whole; lines that tell what was done. Raises Damaged, OSError.

    A damaged file goes into a folder beside the keeping before a whole one takes its place.
    """
    told: list[str] = []
    for one in found:
        place = folder / one.path
        if one.kind == "renamed" and not os.path.lexists(place):
            place.parent.mkdir(parents=True, exist_ok=True)
            (folder / one.now).rename(place)
            told.append(f"called {one.path} again")
        elif one.better is not None:
            _put_back(folder, one, one.better)
            told.append(f"mended    {one.path}")
    return told


def _put_back(folder: Path, one: Trouble, source: Path) -> None:
    place = folder / one.path
    place.parent.mkdir(parents=True, exist_ok=True)
    aside = place.with_name(f".{place.name}.mending")
    shutil.copyfile(source, aside)
    with aside.open("rb") as stream:
        os.fsync(stream.fileno())
    if digest(aside) != digest(source):
        aside.unlink()
        raise Damaged(f"{one.path} did not come back from the disk as it was written. The disk may be failing.")
    if os.path.lexists(place):
        _set_aside(folder, one.path)
    aside.replace(place)
    folder_to_disk(place.parent)


def _set_aside(folder: Path, path: str) -> None:
    """Move a damaged file out of the way, into a folder beside the keeping."""
    goal = folder.with_name(f"{folder.name}-damaged") / path
    while os.path.lexists(goal):
        goal = goal.with_name(goal.name + "~")
    goal.parent.mkdir(parents=True, exist_ok=True)
    (folder / path).rename(goal)
