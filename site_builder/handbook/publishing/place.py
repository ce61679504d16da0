"""Where a handbook may go. Never over anything that we did not make; what is refused is told by name."""

from __future__ import annotations

import errno
import os
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from site_builder.handbook.publishing.mark import WORK, listed, stays, strangers
from site_builder.notebook.files import FOLDERS

OWN = "handbook"
"""The folder for a handbook on a disk that holds other things too."""

_SHOWN = 4


class Refused(Exception):
    """A handbook may not go there; the message says why and what to do. Nothing was changed."""


@dataclass(frozen=True, slots=True)
class Place:
    """The folder that will be the handbook.

    ``whole`` where the folder itself is exchanged for the new one; else what stands in it is exchanged: the root of a
    disk cannot be renamed.
    """

    target: Path
    whole: bool = True

    @property
    def holder(self) -> Path:
        """The folder whose entries are exchanged."""
        return self.target.parent if self.whole else self.target


def real(asked: Path) -> Path:
    """Where a path leads, once links are followed. Raises Refused for a link that leads to nothing."""
    try:
        found = asked.resolve()
        dangling = asked.is_symlink() and not found.exists()
    except (OSError, RuntimeError) as problem:
        if isinstance(problem, OSError) and problem.errno != errno.ELOOP:
            raise Refused(f"{asked} cannot be a folder: {problem.strerror}. Name another one, with --into.") from None
        raise Refused(f"{asked} is a link that goes round in a circle. Delete it, or name another folder.") from None
    if dangling:
        raise Refused(f"{asked} is a link to {found}, and nothing is there. Is the disk plugged in? If so, delete the "
                      "link, or name another folder with --into.")
    return found


def place_for(asked: Path, root: Path) -> Place:
    """The place for the handbook of the notebook in ``root``. Raises Refused."""
    target = real(asked)
    _not_over_a_notebook(asked, target, root.resolve())
    _not_within_a_handbook(asked, target, root)
    if target.exists() and not target.is_dir():
        raise Refused(f"{asked} is a file. Name a folder for the handbook, with --into.")
    if not target.exists():
        return Place(target)
    try:
        others = _others(target)
        if os.path.ismount(target) and others:
            if listed(target) is None:
                return _own_folder(target, root)
            return Place(target, whole=False)  # our book and, beside it, things that are left alone
        if others:
            raise Refused(_held(asked, others))
        beside = stays(target)
    except OSError as problem:
        raise Refused(f"{problem.filename or asked} cannot be looked into: {problem.strerror}. Check its permissions, "
                      "or name another folder with --into.") from None
    fixed = beside or os.path.ismount(target) or Path.cwd().is_relative_to(target)
    return Place(target, whole=not fixed and os.access(target.parent, os.W_OK))


def _own_folder(disk: Path, root: Path) -> Place:
    own = disk / OWN
    if own.is_symlink() or (own.exists() and not own.is_dir()):
        raise Refused(f"{disk} holds other things, so the handbook would go into a folder `{OWN}` of its own there, "
                      f"but {own} is no folder. Rename that, or name another folder with --into.")
    return place_for(own, root)


def _others(target: Path) -> list[str]:
    return [path for path in strangers(target) if not path.startswith(WORK)]


def _not_over_a_notebook(asked: Path, target: Path, root: Path) -> None:
    elsewhere = "Name a folder of its own: `benchlore build --into {}`. Nothing was changed."
    home = Path.home()
    for kept, what in ((root, "the notebook"), (home, "your home folder")):
        if any(_same(target, one) for one in (kept, *kept.parents)):
            itself = _same(target, kept)
            said = f"{asked} is {what} itself" if itself else f"{asked} holds {what}"
            better = target / OWN
            if target == Path(target.anchor):
                said, better = f"{asked} is the root of this machine's disk", root / "site"
            raise Refused(f"{said}; a handbook never goes over it. " + elsewhere.format(better))
    better = root / "site"
    for folder in FOLDERS:
        if any(_same(one, root / folder) for one in (target, *target.parents)):
            raise Refused(f"{asked} belongs to the notebook's own folder `{folder}`; a handbook never goes there. "
                          + elsewhere.format(better))
    if any(one.name == ".git" for one in (target, *target.parents)):
        raise Refused(f"{asked} belongs to Git; a handbook never goes there. " + elsewhere.format(better))


def _not_within_a_handbook(asked: Path, target: Path, root: Path) -> None:
    """A book within a book would be somebody else's files to the next build of the outer one, and stop it."""
    for one in target.parents:
        if not os.path.ismount(one) and listed(one) is not None:
            raise Refused(f"{asked} lies within the handbook {one}. Name a folder of its own: `benchlore build --into "
                          f"{root / 'site'}`. Nothing was changed.")


def _same(one: Path, other: Path) -> bool:
    try:
        return one == other or one.samefile(other)
    except OSError:
        return False


def _held(asked: Path, others: Sequence[str]) -> str:
    """That a folder holds what we did not make, by name."""
    ours = listed(asked) is not None
    names = list(dict.fromkeys(path if ours else path.split("/", 1)[0] for path in others))
    told = ", ".join(f"`{name}`" for name in names[:_SHOWN])
    more = f" and {len(names) - _SHOWN} more" if len(names) > _SHOWN else ""
    if ours:
        return (f"{asked} is a handbook, but it also holds {told}{more}, which we did not make; a build would take it "
                "away. Move it out of there, then build again. Nothing was changed.")
    return (f"{asked} holds {told}{more} and is no handbook that we made; a build would take it away. Nothing was "
            f"changed. Name a folder that is new or empty: `benchlore build --into {asked / OWN}`. If {asked} is an "
            "old handbook that nobody needs, delete it by hand, then build again.")
