"""Files brought onto a disk for good: copied, flushed, and read back from the disk itself."""

from __future__ import annotations

import os
import shutil
from contextlib import suppress
from pathlib import Path

from site_builder.handbook.publishing.mark import MARK, digest, files_in, listed

_ROOM = 1.02
"""A disk hands out whole blocks, so a little more is needed than the files are long."""


class Damaged(OSError):
    """What a disk gives back is not what was written to it."""


class Full(OSError):
    """There is no room."""


def copy_and_verify(made: Path, place: Path) -> None:
    """Copy a marked handbook into the new folder ``place`` and try each file against the mark.

    Raises Full before anything is written; Damaged, OSError.
    """
    size = sum((made / path).stat().st_size for path in files_in(made))
    free = shutil.disk_usage(place.parent).free
    if size * _ROOM > free:
        raise Full(f"The handbook takes {size / 1e6:.1f} MB, and {free / 1e6:.1f} MB are free there.")
    place.mkdir(exist_ok=True)
    for path in files_in(made):
        file = place / path
        file.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(made / path, file)  # times and permissions mean nothing on a stick
    to_disk(place, forget=True)
    verify(made, place)


def verify(made: Path, place: Path) -> None:
    """Whether a copy holds what the mark of ``made`` lists, and the mark. Raises Damaged, OSError."""
    for path, sha in {**(listed(made) or {}), MARK: digest(made / MARK)}.items():
        if digest(place / path) != sha:
            raise Damaged(f"{path} did not come back from the disk as it was written. The disk may be failing.")


def to_disk(folder: Path, *, forget: bool = False) -> None:
    """Wait until all files and folders below ``folder`` lie on the disk; ``forget`` makes later reads ask the disk."""
    for parent, _, names in os.walk(folder, topdown=False):
        for name in names:
            handle = os.open(Path(parent, name), os.O_RDWR if os.name == "nt" else os.O_RDONLY)
            try:
                os.fsync(handle)
                if forget and hasattr(os, "posix_fadvise"):
                    os.posix_fadvise(handle, 0, 0, os.POSIX_FADV_DONTNEED)
            finally:
                os.close(handle)
        folder_to_disk(Path(parent))


def folder_to_disk(folder: Path) -> None:
    """Wait until the names in a folder lie on the disk, where the system knows such a wait."""
    with suppress(OSError):  # Windows opens no folders, some disks flush none
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
