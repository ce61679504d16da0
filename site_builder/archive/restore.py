"""A notebook started again from a keeping alone: the same bytes, each tried on the way."""

from __future__ import annotations

import os
import shutil
from dataclasses import dataclass
from pathlib import Path

from site_builder.archive.bag import LIST, digest, read_listing
from site_builder.archive.check import NoKeeping
from site_builder.archive.contents import NOTEBOOK
from site_builder.archive.place import NotKept, why
from site_builder.handbook.publishing.copying import to_disk
from site_builder.handbook.publishing.place import Refused
from site_builder.handbook.publishing.work import new_work


@dataclass(frozen=True, slots=True)
class Restored:
    """How many files are there again, and which are not as they were kept."""

    files: int
    damaged: tuple[str, ...]


def restore(folder: Path, into: Path, *, as_far_as_whole: bool = False) -> Restored:
    """Write the notebook of the keeping in ``folder`` into the new folder ``into``.

    Where a file of it is damaged or missing nothing is written, unless ``as_far_as_whole``. Raises NoKeeping,
    Refused, NotKept.
    """
    listing = read_listing(folder / LIST)
    wanted = {path: sha for path, sha in (listing.files if listing else {}).items() if path.startswith(f"{NOTEBOOK}/")}
    if not wanted:
        raise NoKeeping(f"{folder} is no keeping with a notebook in it: {LIST} names none.")
    target = into.absolute()
    if os.path.lexists(target) and not (target.is_dir() and not any(target.iterdir())):
        raise Refused(f"{into} is there already and holds something. Name a new folder.")
    if target.is_relative_to(folder.resolve()):
        raise Refused(f"{into} lies within the keeping. Name a folder outside of it.")
    damaged = tuple(path for path, sha in wanted.items() if not _is(folder / path, sha))
    if damaged and not as_far_as_whole:
        return Restored(0, damaged)
    try:
        work = new_work(target.parent, target)
        try:
            made = work.new / target.name
            for path in wanted.keys() - set(damaged):
                file = made / path.removeprefix(f"{NOTEBOOK}/")
                file.parent.mkdir(parents=True, exist_ok=True)
                shutil.copyfile(folder / path, file)
            to_disk(made, forget=True)
            for path in wanted.keys() - set(damaged):
                if not _is(made / path.removeprefix(f"{NOTEBOOK}/"), wanted[path]):
                    raise NotKept(f"{path} did not come back from the disk as it was written. The disk may be failing.")
            if target.is_dir():
                target.rmdir()
            work.move([(work.here(made), work.here(target))])
        finally:
            work.clear()
    except OSError as problem:
        raise NotKept(why(problem)) from None
    return Restored(len(wanted) - len(damaged), damaged)


def _is(file: Path, sha: str) -> bool:
    try:
        return digest(file) == sha
    except OSError:
        return False
