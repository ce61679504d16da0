"""Bringing entries that were written by hand under seal: an old book once, later what was added at its end.

Nothing that an entry says is changed; two lines are added to each, and every entry is read again before the
new text takes the place of the old one. A seal laid today says nothing of what was changed before today.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from site_builder.notebook.tree import Map
from site_builder.skills.append import locked, set_aside
from site_builder.skills.book import Book, Written, book_path, entries_in, read_book, read_piece
from site_builder.skills.chain import Fault, Keys, Link, Wrong, check, verify
from site_builder.skills.last import Last, write_last, write_whole
from site_builder.skills.seal import OUTSIDE, content_of, seal_of

_MENDED_HERE = (Wrong.UNSEALED, Wrong.UNNOTED, Wrong.TORN)


class NotSealed(Exception):
    """The book cannot be brought under seal; the text says where and why."""


@dataclass(frozen=True, slots=True)
class Work:
    """What is to be done to a book: entries to seal, whether the last seal is to be noted, what is torn."""

    book: Book
    unsealed: tuple[Written, ...]
    unnoted: bool

    @property
    def nothing(self) -> bool:
        return not self.unsealed and not self.unnoted and self.book.torn is None


def work_on(book: Book, keys: Keys) -> Work:
    """What sealing would do. Raises NotSealed where the book is not whole but for the missing seals."""
    for fault in verify(book, keys):
        if fault.wrong not in _MENDED_HERE:
            raise NotSealed(_told(fault))
    first = next((i for i, entry in enumerate(book.entries) if not entry.sealed), len(book.entries))
    sealed, unsealed = book.entries[:first], book.entries[first:]
    late = next((entry for entry in unsealed if entry.sealed), None)
    if late is not None:
        raise NotSealed(f"Entry {late.number} is sealed, but entry {unsealed[0].number} before it is not "
                        f"({book.path}:{unsealed[0].at.line}). Put it back as it was, from an older copy.")
    for number, entry in enumerate(unsealed, first + 1):
        if entry.number != number:
            raise NotSealed(f"Entry {entry.number} stands where entry {number} belongs ({book.path}:{entry.at.line}). "
                            "Put the numbers right first; under seal they stay as they are.")
        if any(key in (entry.tree or Map()) for key in ("signature", "key", "previous")):
            raise NotSealed(f"Entry {number} has a signature or the seal of another entry, but no seal of its own "
                            f"({book.path}:{entry.at.line}). Put it back as it was, from an older copy.")
    end = sealed[-1].number if sealed else 0
    unnoted = bool(book.entries) and (book.last is None or book.last.entry != end or bool(unsealed))
    return Work(book, unsealed, unnoted)


def seal_book(root: Path, kind: str, keys: Keys) -> Work:
    """Bring a book under seal and note its last seal. Raises NotSealed, NotWritten, LastBroken, OSError."""
    file = root / book_path(kind)
    with locked(file):
        book = read_book(root, kind)
        work = work_on(book, keys)
        if work.nothing:
            return work
        if book.torn is not None and book.last is not None:
            set_aside(file, book.data, book.torn, book.last.entry + 1)
        if work.unsealed:
            write_whole(file, with_seals(book, work.unsealed))
        end = read_book(root, kind).entries[-1:]
        if end:
            write_last(file, Last(end[0].number, end[0].seal, end[0].text("date")))
        return work


def with_seals(book: Book, unsealed: tuple[Written, ...]) -> bytes:
    """The bytes of a book with ``previous`` and ``seal`` in these entries at its end. Raises NotSealed."""
    sealed = book.entries[: len(book.entries) - len(unsealed)]
    previous = sealed[-1].seal if sealed else ""
    data = book.data[: book.torn]
    out = [data[: unsealed[0].start]]
    for entry in unsealed:
        piece, previous = _with_seal(book, data[entry.start : entry.end], entry, previous)
        out.append(piece)
    new = b"".join(out)
    entries = [*entries_in(new, book.kind, book.path)]
    faults = [*check(entries, Link(), {})]
    same = [_said(entry) for entry in entries] == [_said(entry) for entry in book.entries]
    if not same or any(fault.wrong is not Wrong.SIGNATURE for fault in faults):
        raise NotSealed(f"{book.path} cannot be brought under seal as it is laid out; nothing was written.")
    return new


def _with_seal(book: Book, piece: bytes, entry: Written, previous: str) -> tuple[bytes, str]:
    """A piece with the two lines added behind its last line, or, where that is no place, behind its first key."""
    said: dict[str, object] = {str(key): value for key, value in (entry.tree or Map()).items()}
    if previous:
        said["previous"] = previous
    seal = seal_of(said)
    end = b"\r\n" if b"\r\n" in piece else b"\n"
    lines = [f"{key}: {value}".encode() for key, value in (("previous", previous), ("seal", seal)) if value]
    added = b"".join(line + end for line in lines)
    for at in _places(piece):
        before = piece[:at] if piece[:at].endswith((b"\n", b"\r")) else piece[:at] + end
        new = before + added + piece[at:]
        read = read_piece(new, 0, len(new), book.kind, book.path, 0)
        if read is not None and read.tree is not None and read.seal == read.real_seal == seal:
            return new, seal
    raise NotSealed(f"Entry {entry.number} cannot be sealed as it is laid out ({book.path}:{entry.at.line}): "
                    "write its keys one a line, without braces.")


def _places(piece: bytes) -> Iterator[int]:
    last = re.compile(rb"[^\r\n]*(?:\r\n|\r|\n|\Z)")
    lines = piece.splitlines(keepends=True)
    while lines and (lines[-1].endswith((b"\n", b"\r")) or not lines[-1]) and _says_nothing(lines[-1]):
        lines.pop()
    written = len(b"".join(lines))
    found = last.match(piece, written)
    yield found.end() if found is not None and not piece[:written].endswith((b"\n", b"\r")) else written
    first_key = re.search(rb"(?<=[\r\n])[a-z-]+:[^\r\n]*(?:\r\n|\r|\n)", piece)
    if first_key is not None:
        yield first_key.end()


def _says_nothing(line: bytes) -> bool:
    bare = line.lstrip(b" \t")
    return bare[:1] in (b"#", b"\r", b"\n")


def _said(entry: Written) -> object:
    """What an entry says apart from its place in the chain."""
    tree = entry.tree or Map()
    return content_of({key: value for key, value in tree.items() if key not in (*OUTSIDE, "previous")})


def _told(fault: Fault) -> str:
    return f"{fault.at.path}:{fault.at.line}: {fault.message} {fault.fix}"
