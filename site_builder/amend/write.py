"""Writing an amendment: under the lock, planned from the files as they are now, kept so that it can be taken back."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import datetime
from pathlib import Path

from filelock import FileLock, Timeout

from site_builder.amend.amendment import Amendment, Change
from site_builder.amend.disk import carry_out, put_right
from site_builder.amend.history import Kept, kept_file, next_name
from site_builder.amend.outcome import Conflict, FileChange, Refused, Splices, Written
from site_builder.amend.plan import plan

LOCK = ".amendments.lock"
_WAIT = 10
"""Seconds; a whole amendment takes a fraction of one."""
BUSY = "Somebody else is writing in this notebook. Try again in a moment."


@contextmanager
def lock(root: Path) -> Iterator[bool]:
    """Alone in the notebook; False where somebody else is still writing. What a kill interrupted is ended first."""
    waiting = FileLock(root / LOCK)
    try:
        waiting.acquire(timeout=_WAIT)
    except Timeout:
        yield False
        return
    try:
        put_right(root)
        yield True
    finally:
        waiting.release()


def write(root: Path, amendment: Amendment, who: str, now: datetime) -> Written | Refused | Conflict:
    """Make an amendment in the notebook at ``root``. It is on the disk when this returns ``Written``.

    ``who`` is the id or the name of whoever writes. Raises OSError where the disk refuses.
    """
    with lock(root) as alone:
        if not alone:
            return Refused(BUSY, amendment.files[0], 1)
        planned = plan(root, amendment)
        if not isinstance(planned, Splices):
            return planned
        return keep(root, planned.files, amendment.what, amendment.changes, who, now)


def keep(
    root: Path, files: tuple[FileChange, ...], what: str, changes: tuple[Change, ...], who: str, now: datetime,
    takes_back: str | None = None,
) -> Written:
    """Write files that were planned, and keep the amendment. To be called under the lock."""
    made = Kept(next_name(root, now), what, who, now, changes, tuple(kept_file(one) for one in files), takes_back)
    carry_out(root, made, {one.to: one.after for one in files})
    return Written(made.name, files)
