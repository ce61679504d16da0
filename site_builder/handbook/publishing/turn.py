"""One build at a time into one folder: the other waits, and says so."""

from __future__ import annotations

import hashlib
import os
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from filelock import FileLock, Timeout

_PATIENCE = 3600.0
"""So many seconds another build is waited for; no shop's handbook takes as long."""


class Busy(Exception):
    """Another build into this folder is under way."""


def turn_key(target: Path) -> str:
    """A short name for the folder whose turn it is."""
    return hashlib.sha256(os.fsencode(os.path.normcase(target))).hexdigest()[:16]


@contextmanager
def turn(key: str, *, wait: bool, tell: Callable[[str], None]) -> Iterator[None]:
    """Alone with the folder of this key, on this machine. Raises Busy where the other one does not end.

    The lock lies among the machine's temporary files: beside the handbook it would be left over on every stick. It
    goes with the process that holds it, however that ends.
    """
    folder = Path(tempfile.gettempdir()) / f"benchlore-{os.getuid() if hasattr(os, 'getuid') else 'builds'}"
    try:
        folder.mkdir(mode=0o700, exist_ok=True)
        lock = FileLock(folder / f"{key}.lock", timeout=0)
        try:
            lock.acquire()
        except Timeout:
            if not wait:
                raise Busy from None
            tell("Another build into this folder is under way; this one waits for it.")
            lock.acquire(timeout=_PATIENCE, poll_interval=0.1)
    except Timeout:
        raise Busy from None
    try:
        yield
    finally:
        lock.release()
