"""Writing files so that a power cut leaves the old text or the new one, never half of either."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path


class ChangedMeanwhile(Exception):
    """Somebody else wrote the file since it was read; nothing was written."""


def write_new(file: Path, text: str) -> bool:
    """Write a file that must not be there yet; False (and nothing written) if it is."""
    file.parent.mkdir(parents=True, exist_ok=True)
    try:
        with file.open("x", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
            stream.flush()
            os.fsync(stream.fileno())
    except FileExistsError:
        return False
    return True


def write_over(file: Path, seen: str, text: str) -> None:
    """Replace a file that still holds what was ``seen``; raises ChangedMeanwhile if it does not.

    The file keeps its kind of line ends.
    """
    before = file.read_bytes()
    if before.decode("utf-8").replace("\r\n", "\n") != seen.replace("\r\n", "\n"):
        raise ChangedMeanwhile(str(file))
    ends = "\r\n" if b"\r\n" in before else "\n"
    handle, name = tempfile.mkstemp(prefix=file.name + ".", dir=file.parent)
    aside = Path(name)
    try:
        with os.fdopen(handle, "w", encoding="utf-8", newline=ends) as stream:
            stream.write(text.replace("\r\n", "\n"))
            stream.flush()
            os.fsync(stream.fileno())
        aside.chmod(file.stat().st_mode)
        aside.replace(file)
    finally:
        aside.unlink(missing_ok=True)
