"""One more entry at the end of a book: acknowledged and there for good, or never acknowledged.

Under the lock of the book: note in the small file beside it that an entry is about to be written, and where;
write the entry at the end; wait until it lies on the disk; note its seal. What stood in the book before is
never touched. Where the power goes in between, the note tells what was whole and what is torn; the next
writer sets the torn rest aside in a file beside the book.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Protocol

from filelock import FileLock, Timeout

from site_builder.notebook.reader import MAX_BOOK_BYTES
from site_builder.skills.book import BOOK_FILES, book_path, entries_in, follows, last_entry, torn_at
from site_builder.skills.entry_text import Value, entry_text
from site_builder.skills.last import (
    Last,
    folder_to_disk,
    last_file,
    read_last,
    to_disk,
    write_all,
    write_last,
)
from site_builder.skills.seal import seal_of

WAIT = 30.0
"""So many seconds another writer is waited for."""


class NotWritten(Exception):
    """The entry was not written; the text says why and what to do."""


class MovedOn(NotWritten):
    """Somebody else has written into the book since it was looked at."""


class Signs(Protocol):
    """Who can put a signature under a seal."""

    @property
    def public(self) -> str: ...

    def sign(self, seal: str) -> str: ...


@dataclass(frozen=True, slots=True)
class Appended:
    """The entry that was written, and the file with a torn one that was found and set aside."""

    number: int
    seal: str
    set_aside: Path | None


@contextmanager
def locked(file: Path, wait: float = WAIT) -> Iterator[None]:
    """Nobody else writes into this book meanwhile. Raises NotWritten where somebody does for too long."""
    file.parent.mkdir(parents=True, exist_ok=True)
    try:
        with FileLock(file.with_name(f".{file.stem}.lock"), timeout=wait, poll_interval=0.01):
            yield
    except Timeout:
        raise NotWritten(f"Somebody else is writing into {file.name}. Try again in a moment.") from None


def append(
    root: Path, kind: str, fields: Mapping[str, Value], *, signer: Signs | None = None, seen: str | None = None,
) -> Appended:
    """Write an entry with these fields; its number, the seals and the signature are added here.

    ``seen`` is the last seal of the book as the writer knew it; where another stands there now, MovedOn is
    raised and nothing is written. Raises NotWritten, Unwritable, LastBroken, OSError.
    """
    path = book_path(kind)
    file = root / path
    with locked(file):
        data, last, aside = _mended(file, kind, path)
        if seen is not None and seen != last.seal:
            raise MovedOn(f"Somebody else has written entry {last.entry} of {file.name} meanwhile.")
        entry = sealed_entry(kind, last.entry + 1, last.seal, fields, signer)
        text = entry_text(entry)
        if not data.strip():
            text = f"# yaml-language-server: $schema=../../.schemas/{kind}.json\n" + text
        elif not data.endswith(b"\n"):
            text = "\n" + text
        if b"\r\n" in data:
            text = text.replace("\n", "\r\n")
        block = text.encode("utf-8")
        if len(data) + len(block) > MAX_BOOK_BYTES:
            raise NotWritten(f"{file.name} is full: a book holds {MAX_BOOK_BYTES >> 20} MB.")
        write_last(file, replace(last, writing=len(data)))
        _write(file, block, len(data))
        seal, date = str(entry["seal"]), str(fields.get("date", ""))
        write_last(file, Last(last.entry + 1, seal, date))
        return Appended(last.entry + 1, seal, aside)


def sealed_entry(
    kind: str, number: int, previous: str, fields: Mapping[str, Value], signer: Signs | None = None,
) -> dict[str, Value]:
    """An entry with its number, seals and signature. The seal comes last: a torn entry never holds it whole."""
    entry: dict[str, Value] = {kind: str(number), **fields}
    if previous:
        entry["previous"] = previous
    if signer is not None:
        entry["key"] = signer.public
    seal = seal_of(entry)
    if signer is not None:
        entry["signature"] = signer.sign(seal)
    return {**entry, "seal": seal}


def set_aside(file: Path, data: bytes, start: int, number: int) -> Path:
    """Move what is torn, from byte ``start`` on, into a file of its own beside the book."""
    rest = data[start:]
    for attempt in range(1, 1000):
        aside = file.with_name(f"{file.stem}.torn-{number}-{attempt}.txt")
        try:
            handle = os.open(aside, os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0), 0o644)
        except FileExistsError:
            # a writer that was stopped in the middle of this has left it, perhaps half
            if aside.read_bytes() == rest:
                break
            continue
        try:
            write_all(handle, rest)
            to_disk(handle)
        finally:
            os.close(handle)
        folder_to_disk(file.parent)
        break
    _cut(file, start)
    return aside


def _mended(file: Path, kind: str, path: str) -> tuple[bytes, Last, Path | None]:
    """The book ready for one more entry: what a power cut left is acknowledged or set aside."""
    if file.exists() and not file.is_file():
        raise NotWritten(f"{file.name} is no ordinary file. Nothing was written. Move it out of the notebook.")
    data = file.read_bytes() if file.exists() else b""
    last = read_last(file)
    end = last_entry(data, kind, path)
    if last is None:
        if end is not None:
            raise NotWritten(_unnoted(file, end.sealed))
        return data, Last(), None
    aside = None
    torn = torn_at(data, kind, path, last)
    if torn is not None:
        aside = set_aside(file, data, torn, last.entry + 1)
        data = data[:torn]
        end = last_entry(data, kind, path)
    elif last.writing is not None and end is not None and follows(end, last):
        tail = [*entries_in(data[last.writing:], kind, path)]
        if len(tail) == 1:  # whole, and only its acknowledgement is missing
            last = Last(end.number, end.seal, end.text("date"))
            write_last(file, last)
    number, seal = (end.number, end.seal) if end is not None else (0, "")
    whole = end is None or (end.tree is not None and end.seal == end.real_seal)
    if not whole or (number, seal) != (last.entry, last.seal):
        raise NotWritten(
            f"{file.name} does not end with entry {last.entry}, as the small file beside it says. Nothing was "
            f"written. `benchlore verify` tells what is wrong."
        )
    return data, last, aside


def _unnoted(file: Path, sealed: bool) -> str:
    if sealed:
        return (f"{last_file(file).name}, the small file with the last seal, is not there. Nothing was written. "
                "`benchlore verify` tells more.")
    return (f"{file.name} is not under seal yet. Nothing was written. Look through it, then bring it under seal "
            "once with `benchlore seal`.")


def _write(file: Path, block: bytes, size: int) -> None:
    new = size == 0 and not file.exists()
    handle = os.open(file, os.O_WRONLY | os.O_CREAT | os.O_APPEND | getattr(os, "O_BINARY", 0), 0o644)
    try:
        try:
            write_all(handle, block)
            to_disk(handle)
        except OSError:
            with suppress(OSError):  # a full disk: take back what it took; else the next writer sets it aside
                os.ftruncate(handle, size)
            raise
    finally:
        os.close(handle)
    if new:
        folder_to_disk(file.parent)


def _cut(file: Path, size: int) -> None:
    handle = os.open(file, os.O_RDWR | getattr(os, "O_BINARY", 0))
    try:
        os.ftruncate(handle, size)
        to_disk(handle)
    finally:
        os.close(handle)


__all__ = ["BOOK_FILES", "Appended", "MovedOn", "NotWritten", "append", "locked", "sealed_entry", "set_aside"]
