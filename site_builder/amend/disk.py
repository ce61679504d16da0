"""Bytes to the disk, whole or not at all; and what a kill left behind, brought to its end."""

from __future__ import annotations

import os
from pathlib import Path

from site_builder.amend.history import FOLDER, PENDING, Kept, KeptFile, as_text, digest, file_of, from_text
from site_builder.amend.splices import spliced

_ASIDE = ".amending"


def put_in_place(file: Path, data: bytes) -> None:
    """The file holds these bytes afterwards, or what it held before, also if the power fails."""
    file.parent.mkdir(parents=True, exist_ok=True)
    aside = _aside(file)
    aside.unlink(missing_ok=True)
    with aside.open("xb") as stream:
        stream.write(data)
        stream.flush()
        os.fsync(stream.fileno())
    if file.exists():
        aside.chmod(file.stat().st_mode)
    aside.replace(file)
    _to_disk(file.parent)


def take_away(file: Path) -> None:
    """The file is gone afterwards."""
    file.unlink(missing_ok=True)
    _to_disk(file.parent)


def carry_out(root: Path, kept: Kept, made: dict[str, bytes | None]) -> None:
    """Write all files of an amendment, so that after a kill ``put_right`` can bring it to its end.

    ``made`` are the new bytes of each file by its name afterwards; None takes it away.
    """
    pending = root / FOLDER / PENDING
    put_in_place(pending, as_text(kept).encode("utf-8"))
    for file in kept.files:
        _make(root, file, made[file.to])
    _close(root, kept)


def put_right(root: Path) -> str | None:
    """Bring to its end what a kill interrupted; the name of an amendment that was completed, if one was.

    What had not begun to be written is dropped: nobody was told that it is in the book. To be called under the lock.
    """
    pending = root / FOLDER / PENDING
    if not pending.parent.is_dir():
        return None
    _aside(pending).unlink(missing_ok=True)
    if not pending.is_file():
        return None
    kept = from_text(pending.read_text("utf-8"))
    if kept is None:
        pending.unlink()
        return None
    stands = [_stands(root, file) for file in kept.files]
    for file in kept.files:
        for name in (file.file, file.to):
            _aside(root / name).unlink(missing_ok=True)
    if all(one == "before" for one in stands):
        pending.unlink()
        return None
    for file, state in zip(kept.files, stands, strict=True):
        if state == "before":
            data = root / file.file
            old = data.read_bytes() if data.is_file() else b""
            _make(root, file, None if file.is_ is None else spliced(old, [one.splice for one in file.splices]))
        elif state == "both":
            take_away(root / file.file)
    _close(root, kept)
    return kept.name


def _make(root: Path, file: KeptFile, data: bytes | None) -> None:
    if data is None:
        take_away(root / file.to)
        return
    if digest(data) != file.was or file.to != file.file:
        put_in_place(root / file.to, data)
    if file.to != file.file:
        take_away(root / file.file)


def _close(root: Path, kept: Kept) -> None:
    target = file_of(root, kept.name)
    target.parent.mkdir(parents=True, exist_ok=True)
    (root / FOLDER / PENDING).replace(target)
    _to_disk(target.parent)
    _to_disk(root / FOLDER)


def _stands(root: Path, file: KeptFile) -> str:
    """Whether a file is as it was ``before``, as it is ``after``, under ``both`` names, or ``else``."""
    old, new = _digest(root / file.file), _digest(root / file.to)
    if file.to != file.file:
        if old == file.was:
            return "both" if new == file.is_ else "before"
        return "after" if new == file.is_ else "else"
    return "before" if old == file.was else "after" if new == file.is_ else "else"


def _digest(file: Path) -> str | None:
    return digest(file.read_bytes()) if file.is_file() else None


def _aside(file: Path) -> Path:
    """Beside the file, under a name that no reader of a notebook takes up."""
    return file.with_name(f".{file.name}{_ASIDE}")


def _to_disk(folder: Path) -> None:
    """Bring the names of a folder to the disk, where the system can."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError:  # Windows opens no folders
        return
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
