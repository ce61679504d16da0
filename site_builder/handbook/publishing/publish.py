"""From the turn of a build to the new handbook in its place: the one way by which a place is written to."""

from __future__ import annotations

import errno
import os
import tempfile
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from site_builder.handbook.publishing.copying import Damaged, Full, copy_and_verify, to_disk
from site_builder.handbook.publishing.mark import MARK, WORK, by_system, listed, strangers, write_mark
from site_builder.handbook.publishing.place import Place, Refused, place_for, real
from site_builder.handbook.publishing.turn import Busy, turn, turn_key
from site_builder.handbook.publishing.work import Move, Stuck, Work, new_work, recover

_HELD_FAST = (errno.EBUSY, errno.EXDEV, errno.EPERM, errno.EACCES, errno.EINVAL)
"""Why a folder cannot be renamed although what stands in it can: something is mounted on it, or it is another's."""


class NotPlaced(Exception):
    """The new handbook is not in its place; the message says why. What stood there is as it was."""


@dataclass
class Publication:
    """A handbook under way: made in ``making``, which nobody else knows, and then put in its place."""

    asked: Path
    root: Path
    place: Place
    making: Path
    works: list[Work]
    told: list[str] = field(default_factory=list)

    def finish(self) -> Path:
        """Put what stands in ``making`` in its place; the folder in which it stands then. Raises Refused, NotPlaced."""
        self._ask_again()
        try:
            write_mark(self.making)
            if self.place.whole:
                try:
                    self._exchange_whole()
                except OSError as problem:
                    if problem.errno not in _HELD_FAST or not self.place.target.is_dir():
                        raise
                    self.place = Place(self.place.target, whole=False)
                    self._exchange_within()
            else:
                self._exchange_within()
        except (Full, Damaged) as problem:
            raise NotPlaced(str(problem)) from None
        except OSError as problem:
            raise NotPlaced(_told(problem)) from None
        except Stuck as problem:
            raise NotPlaced(str(problem)) from None
        return self.place.target

    def _ask_again(self) -> None:
        """What came into the place while the handbook was made is as good as what was there before."""
        now = place_for(self.asked, self.root)
        if now.target != self.place.target:
            raise Refused(f"{self.asked} has become another folder meanwhile. Build again.")

    def _exchange_whole(self) -> None:
        """The folder itself goes aside and the new one takes its name."""
        target = self.place.target
        work = self._work_in(target.parent)
        new = self._brought_into(work)
        moves = [(work.here(target), work.here(work.old / target.name))] if target.exists() else []
        work.move([*moves, (work.here(new), work.here(target))])

    def _exchange_within(self) -> None:
        """Entry by entry: what the old mark lists goes aside, what the new one lists takes its place."""
        target = self.place.target
        work = self._work_in(target)
        before = _tops(target)
        _nothing_between(target, before)
        new = self._brought_into(work)
        after = _tops(new)
        taken = [name for name in after if name not in before and os.path.lexists(target / name)]
        if taken:
            raise Refused(f"{target / taken[0]} is not ours, and the handbook needs a place of that name. Move it away "
                          "from there, then build again. Nothing was changed.")
        moves: list[Move] = [(name, work.here(work.old / name)) for name in before]
        work.move([*moves, *((work.here(new / name), name) for name in after)])

    def _work_in(self, holder: Path) -> Work:
        """The work folder from which a rename leads to ``holder``."""
        found = next((work for work in self.works if work.holder == holder), None)
        if found is None:
            found = new_work(holder, self.place.target)
            self.works.append(found)
        return found

    def _brought_into(self, work: Work) -> Path:
        """The finished handbook in this work folder, made there or copied and read back."""
        if self.making.is_relative_to(work.folder):
            to_disk(self.making)
            return self.making
        goal = work.new / (self.place.target.name or "handbook")
        copy_and_verify(self.making, goal)
        return goal


@contextmanager
def publication(
    asked: Path, root: Path, scratch: Path, tell: Callable[[str], None]
) -> Iterator[Publication]:
    """The turn to write to ``asked``, once what a killed build left there is put right.

    ``scratch`` is a folder on the notebook's own disk; in it a handbook is made that goes onto another one. Whatever
    happens, no work folder is left over. Raises Refused, NotPlaced.
    """
    target = real(asked)
    try:
        with turn(turn_key(target), wait=True, tell=tell):
            for holder in (target.parent, target, scratch):
                recover(holder, tell=tell, held=target)
            place = place_for(asked, root)
            if place.target == target:
                yield from _made(asked, root, place, scratch)
                return
            with turn(turn_key(place.target), wait=True, tell=tell):  # a folder of its own on a disk
                recover(place.target, tell=tell, held=place.target)
                yield from _made(asked, root, place, scratch)
    except Busy:
        raise NotPlaced(f"Another build into {asked} does not come to its end. Build again when it has.") from None


def _made(asked: Path, root: Path, place: Place, scratch: Path) -> Iterator[Publication]:
    works: list[Work] = []
    made: Publication | None = None
    try:
        try:
            near = _disk_of(place.holder) == _disk_of(root)
            works.append(new_work(place.holder, place.target) if near else _scratch(scratch, place.target))
        except OSError as problem:
            raise NotPlaced(_told(problem)) from None
        making = works[0].new / (place.target.name or "handbook")
        made = Publication(asked, root, place, making, works)
        if place.target != real(asked):
            made.told.append(f"{asked} holds other things too, so the handbook has a folder of its own there.")
        yield made
    finally:
        for work in works:
            if not work.clear() and made is not None:
                made.told.append(f"What stood there before could not be removed; it lies in {work.folder}. "
                                 "Delete it by hand, or build again later.")


def _scratch(folder: Path, target: Path) -> Work:
    try:
        return new_work(folder, target)
    except OSError:  # a notebook that may only be read
        return new_work(Path(tempfile.gettempdir()), target)


def put_right(folder: Path, tell: Callable[[str], None]) -> None:
    """Bring back the last good handbook that a killed build left beside its place in ``folder``."""
    recover(folder, tell=tell)


def _disk_of(folder: Path) -> int:
    while not folder.exists():
        folder = folder.parent
    return folder.stat().st_dev


def _tops(folder: Path) -> list[str]:
    """The entries of a folder that belong to a handbook of ours: what its mark lists, or all of an unmarked one."""
    ours = listed(folder)
    if ours is None:
        return sorted(one.name for one in folder.iterdir() if not by_system(one.name) and not one.name.startswith(WORK))
    names = dict.fromkeys([*(path.split("/", 1)[0] for path in ours), MARK])
    return sorted(name for name in names if os.path.lexists(folder / name))


def _nothing_between(target: Path, tops: Sequence[str]) -> None:
    """Raises Refused where somebody else's file stands in a folder of the handbook."""
    for path in strangers(target):
        if path.split("/", 1)[0] in tops:
            raise Refused(f"{target / path} stands among the handbook's own files, and we did not make it. Move it "
                          "out of there, then build again. Nothing was changed.")


def _told(problem: OSError) -> str:
    if problem.errno == errno.ENOSPC:
        return "The disk is full. Make room for one more handbook, then build again."
    where = f" ({problem.filename})" if problem.filename else ""
    return f"The handbook could not be written: {problem.strerror or problem}{where}."


__all__ = ["NotPlaced", "Publication", "Refused", "publication", "put_right"]
