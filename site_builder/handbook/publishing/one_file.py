"""A single file put in its place: whole or not at all, and only over one that we made."""

from __future__ import annotations

import errno
import os
import tempfile
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from site_builder.handbook.publishing.copying import folder_to_disk
from site_builder.handbook.publishing.place import Refused


def put_file(place: Path, data: bytes, *, ours: Callable[[Path], bool], kind: str) -> None:
    """Write ``data`` to ``place``; what stood there goes only if ``ours`` knows it, ``kind`` says what that would be.

    Raises Refused, OSError; what stood there is then as it was.
    """
    if place.is_dir():
        raise Refused(f"{place} is a folder. Name a file: `-o {place / 'book'}`.")
    if os.path.lexists(place) and not (place.is_file() and ours(place)):
        raise Refused(f"{place} is no {kind} that we made. It was left as it is. Name another file with -o.")
    folder = place.resolve().parent
    if not folder.is_dir():
        raise Refused(f"There is no folder {folder}. Make it first, or name another file with -o.")
    handle, name = tempfile.mkstemp(prefix=".benchlore-", suffix=place.suffix, dir=folder)
    aside = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        aside.chmod(0o644)
        aside.replace(place.resolve())
    except BaseException:
        with suppress(OSError):
            aside.unlink()
        raise
    folder_to_disk(folder)


def full(problem: OSError) -> bool:
    """Whether a disk has no room left."""
    return problem.errno in (errno.ENOSPC, getattr(errno, "EDQUOT", errno.ENOSPC))
