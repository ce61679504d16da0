"""The folder in which a handbook is made, and the way from there into its place, which can be gone back.

It lies in the folder whose entries are exchanged, so that each is moved by a rename; two builds never have the same.
Its note is written before anything is moved, and says what is moved where. Where a build is killed in between, the
next command reads the note and moves everything back.
"""

from __future__ import annotations

import json
import os
import shutil
import tempfile
from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from site_builder.handbook.publishing.copying import folder_to_disk
from site_builder.handbook.publishing.mark import WORK
from site_builder.handbook.publishing.turn import Busy, turn, turn_key

_NOTE = "note.json"
_MAKER = "benchlore"

Move = tuple[str, str]
"""From where to where, both as paths from the folder in which the work folder lies."""


class Stuck(Exception):
    """What was moved aside could not be moved back; the message says where it lies."""


@dataclass(frozen=True, slots=True)
class Work:
    """A work folder for the handbook that is to stand at ``target``."""

    folder: Path
    target: Path

    @property
    def holder(self) -> Path:
        return self.folder.parent

    @property
    def new(self) -> Path:
        return self.folder / "new"

    @property
    def old(self) -> Path:
        return self.folder / "old"

    def here(self, path: Path) -> str:
        """A path as moves name it."""
        return path.relative_to(self.holder).as_posix()

    def note(self, moves: Sequence[Move] = ()) -> None:
        """Write down, for good, what is about to be moved; nothing once all stands in its place."""
        try:
            target = os.path.relpath(self.target, self.holder)  # a stick has another path on every machine
        except ValueError:  # another drive of Windows
            target = str(self.target)
        said = {"made by": _MAKER, "target": target, "moves": moves}
        aside = self.folder / (_NOTE + ".new")
        with aside.open("w", encoding="utf-8") as stream:
            json.dump(said, stream)
            stream.flush()
            os.fsync(stream.fileno())
        aside.replace(self.folder / _NOTE)
        folder_to_disk(self.folder)

    def move(self, moves: Sequence[Move]) -> None:
        """Move everything, or nothing. Raises OSError with all as it was; Stuck where that could not be."""
        self.note(moves)
        try:
            for source, goal in moves:
                _let_go(self.holder / source)
                (self.holder / source).rename(self.holder / goal)
            for folder in {(self.holder / goal).parent for _, goal in moves}:
                folder_to_disk(folder)
            self.note()
        except BaseException:
            self.move_back(moves)
            with suppress(OSError):  # a note of moves that were all undone does no harm
                self.note()
            raise

    def move_back(self, moves: Sequence[Move]) -> None:
        """Undo what was done of these moves. Raises Stuck."""
        for source, goal in reversed(moves):
            before, after = self.holder / source, self.holder / goal
            if os.path.lexists(after) and not os.path.lexists(before):
                try:
                    before.parent.mkdir(parents=True, exist_ok=True)
                    after.rename(before)
                except OSError as problem:
                    raise Stuck(f"{after} could not be moved back to {before}: {problem.strerror}. Move it there by "
                                "hand.") from None
        for folder in {(self.holder / source).parent for source, _ in moves}:
            folder_to_disk(folder)

    def clear(self) -> bool:
        """Remove the work folder and what is left in it; False where something of it cannot be removed."""
        if not _remove(self.new) or not _remove(self.old):
            return False
        return _remove(self.folder)


def new_work(holder: Path, target: Path) -> Work:
    """A work folder in ``holder`` that nobody else has. Raises OSError."""
    holder.mkdir(parents=True, exist_ok=True)
    work = Work(Path(tempfile.mkdtemp(prefix=f"{WORK}{turn_key(target)}-", dir=holder)), target)
    try:
        work.folder.chmod(0o755)  # temporary folders are closed to others; a handbook is not
        work.note()
        work.new.mkdir()
        work.old.mkdir()
    except OSError:
        work.clear()
        raise
    return work


def recover(holder: Path, *, tell: Callable[[str], None], held: Path | None = None) -> None:
    """Put right what killed builds left in ``holder``: the last good handbook back, their work folders away.

    A build that is still under way is left alone; ``held`` is the target whose turn the caller has already.
    """
    for folder in _left(holder):
        key = folder.name.removeprefix(WORK).partition("-")[0]
        if held is not None and key == turn_key(held):
            _put_right(folder, tell)
            continue
        with suppress(Busy, OSError), turn(key, wait=False, tell=tell):
            _put_right(folder, tell)


def _put_right(folder: Path, tell: Callable[[str], None]) -> None:
    found = _read(folder)
    if found is None:
        return
    work, moves = found
    started = any(not os.path.lexists(work.holder / source) for source, _ in moves)
    try:
        work.move_back(moves)
        work.note()
    except (Stuck, OSError) as problem:
        tell(f"A build was cut off, and the last good one is not back in its place yet. {problem}")
        return
    if started:
        tell(f"A build was cut off while it put what it had made in place; the last good one is back in {work.target}.")
    work.clear()


def _left(holder: Path) -> list[Path]:
    try:
        return sorted(one for one in holder.iterdir() if one.name.startswith(WORK))
    except OSError:
        return []


def _read(folder: Path) -> tuple[Work, list[Move]] | None:
    """A work folder and what its note says; None where it is none of ours."""
    try:
        if folder.is_symlink() or not folder.is_dir():
            return None
        if {one.name for one in folder.iterdir()} <= {_NOTE + ".new"}:  # cut off at its very first or last step
            return Work(folder, folder), []
        said: Any = json.loads((folder / _NOTE).read_text("utf-8"))
        if said["made by"] != _MAKER:
            return None
        moves = [(str(source), str(goal)) for source, goal in said["moves"]]
        target = Path(os.path.normpath(folder.parent / str(said["target"])))
    except (OSError, ValueError, TypeError, KeyError):
        return None
    # a note leads nowhere but from the work folder to beside it and back
    for one in (path for move in moves for path in move):
        if Path(one).is_absolute() or ".." in Path(one).parts:
            return None
    return Work(folder, target), moves


def _let_go(folder: Path) -> None:
    """A folder that was made read-only cannot be moved to another one: its entry `..` changes."""
    if folder.is_dir() and not folder.is_symlink() and not os.access(folder, os.W_OK):
        with suppress(OSError):
            folder.chmod(0o755)


def _remove(folder: Path) -> bool:
    """Remove a folder of our own, also one that was made read-only."""
    if not os.path.lexists(folder):
        return True
    for parent, _, _ in os.walk(folder):
        with suppress(OSError):
            Path(parent).chmod(0o755)
    shutil.rmtree(folder, ignore_errors=True)
    return not os.path.lexists(folder)
