"""Small files in the user's own configuration folder: readable by nobody else, replaced whole or not at all."""

from __future__ import annotations

import os
import secrets
from pathlib import Path


def read_own(file: Path) -> bytes:
    """What stands there; nothing where there is no such file."""
    try:
        return file.read_bytes()
    except FileNotFoundError:
        return b""


def write_own(file: Path, data: bytes) -> None:
    """On the disk when this returns. Raises OSError."""
    file.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    beside = file.with_name(f".{file.name}.{secrets.token_hex(4)}")
    handle = os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o600)
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(data)
            out.flush()
            os.fsync(out.fileno())
        beside.replace(file)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise
