"""Where a keeping may go, and the way there: only one that we made is ever replaced, and no kill leaves half of one."""

from __future__ import annotations

import errno
import os
import unicodedata
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from site_builder.archive.bag import LIST, LIST_OF_LISTS, LISTED, is_ours, read_listing
from site_builder.archive.check import troubles
from site_builder.handbook.publishing.copying import to_disk
from site_builder.handbook.publishing.mark import files_in
from site_builder.handbook.publishing.place import Refused, real
from site_builder.handbook.publishing.turn import Busy, turn, turn_key
from site_builder.handbook.publishing.work import Stuck, Work, new_work, recover
from site_builder.notebook.files import FOLDERS

_SHOWN = 4


class NotKept(Exception):
    """The keeping is not in its place; the message says why. What stood there is as it was."""


@dataclass
class Making:
    """A keeping under way in ``folder``, which nobody else knows."""

    asked: Path
    root: Path
    target: Path
    work: Work
    told: list[str] = field(default_factory=list)

    @property
    def folder(self) -> Path:
        return self.work.new / self.target.name

    def finish(self) -> Path:
        """Bring it to the disk, read it back, and put it in its place. Raises Refused, NotKept."""
        try:
            to_disk(self.folder, forget=True)
            bad = troubles(self.folder)
            if bad:
                raise NotKept(f"The disk does not give back what was written to it ({bad[0].path}). It may be failing. "
                              "What stood there is as it was.")
            place_for(self.asked, self.root)  # what came there meanwhile is as good as what was there before
            here = self.work.here
            moves = [(here(self.target), here(self.work.old / self.target.name))] if self.target.exists() else []
            self.work.move([*moves, (here(self.folder), here(self.target))])
        except OSError as problem:
            raise NotKept(why(problem)) from None
        except Stuck as problem:
            raise NotKept(str(problem)) from None
        return self.target


@contextmanager
def making(asked: Path, root: Path, tell: Callable[[str], None]) -> Iterator[Making]:
    """The turn to write to ``asked``, once what a killed keeping left there is put right. Raises Refused, NotKept."""
    target = place_for(asked, root)
    try:
        with turn(turn_key(target), wait=True, tell=tell):
            recover(target.parent, tell=tell, held=target)
            place_for(asked, root)
            try:
                work = new_work(target.parent, target)
            except OSError as problem:
                raise NotKept(why(problem)) from None
            made = Making(asked, root, target, work)
            try:
                made.folder.mkdir()
                yield made
            except OSError as problem:
                raise NotKept(why(problem)) from None
            finally:
                if not work.clear():
                    made.told.append(f"What stood there before could not be removed; it lies in {work.folder}. Delete "
                                     "it by hand.")
    except Busy:
        raise NotKept(f"Another keeping into {asked} does not come to its end. Try again when it has.") from None


def place_for(asked: Path, root: Path) -> Path:
    """The folder that will be the keeping of the notebook in ``root``. Raises Refused."""
    target = real(asked)
    better = f"Name a folder of its own: `benchlore keep {target / 'keep'}`. Nothing was changed."
    for kept, what in ((root.resolve(), "the notebook"), (Path.home(), "your home folder")):
        if target == kept or target in kept.parents:
            said = "is" if target == kept else "holds"
            raise Refused(f"{asked} {said} {what}; a keeping never goes over it. {better}")
    inside = [root.resolve() / folder for folder in FOLDERS]
    if any(one in inside or one.name == ".git" for one in (target, *target.parents)):
        raise Refused(f"{asked} belongs to the notebook or to Git; a keeping never goes there. Name a folder outside "
                      "of it. Nothing was changed.")
    if target.exists() and not target.is_dir():
        raise Refused(f"{asked} is a file. Name a folder for the keeping.")
    if os.path.ismount(target):
        raise Refused(f"{asked} is a whole disk. {better}")
    others = strangers(target) if target.exists() else []
    if others:
        named = ", ".join(f"`{one}`" for one in others[:_SHOWN])
        more = f" and {len(others) - _SHOWN} more" if len(others) > _SHOWN else ""
        whose = "is a keeping, but it also" if is_ours(target) else "is no keeping that we made: it"
        raise Refused(f"{asked} {whose} holds {named}{more}. Move that out of there, or name a folder that is new or "
                      "empty. Nothing was changed.")
    return target


def strangers(folder: Path) -> list[str]:
    """What stands in a folder and is not of a keeping that we made."""
    there = sorted(files_in(folder))
    listing = read_listing(folder / LIST)
    if not is_ours(folder) or listing is None:
        return there
    own = {unicodedata.normalize("NFC", path) for path in (*listing.files, *LISTED, LIST_OF_LISTS)}
    return [path for path in there if unicodedata.normalize("NFC", path) not in own]


def why(problem: OSError) -> str:
    """Why nothing was kept, in words."""
    if problem.errno in (errno.ENOSPC, getattr(errno, "EDQUOT", errno.ENOSPC)):
        return "The disk is full. Make room, then keep again. What stood there is as it was."
    where = f" ({problem.filename})" if problem.filename else ""
    return f"The keeping could not be written: {problem.strerror or problem}{where}. What stood there is as it was."
