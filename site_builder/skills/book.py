"""A book of records as it stands on the disk: its entries, byte by byte, before anything is believed of it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from site_builder.notebook.finding import At, Level
from site_builder.notebook.reader import RECORDS, read_text
from site_builder.notebook.tree import Map, Text
from site_builder.skills.last import Last, read_last
from site_builder.skills.retyped import retyped
from site_builder.skills.seal import Ambiguous, seal_of

BOOK_FILES: Mapping[str, str] = {
    "sign-off": "sign-offs.yml", "practice": "practice.yml", "trial": "trials.yml",
    "measurement": "measurements.yml", "incident": "incidents.yml",
}
"""The kind of an entry and the one file that is its book."""

# A line that begins an entry; at the very end also what may be left of one.
_BEGIN = re.compile(rb"(?:\A|\A\xef\xbb\xbf|(?<=[\r\n]))(?:---(?=[ \t\r\n]|\Z)|-{1,2}\Z)")
_LINE_END = re.compile(rb"\r\n|\r|\n")


@dataclass(frozen=True, slots=True)
class Written:
    """An entry as it stands in its book, from byte ``start`` to ``end``."""

    start: int
    end: int
    at: At
    tree: Map | None = None
    """What it says; None where it cannot be read."""
    problem: str = ""
    """Why it cannot be read."""
    number: int = 0
    real_seal: str = ""
    """The seal that belongs to what it says."""
    retyped: str = ""
    """What to put back where an editor changed no more than tabs and quotes."""

    def text(self, key: str) -> str:
        """What stands under a key; empty where there is nothing, or no single text."""
        value = self.tree.get(Text(key)) if self.tree is not None else None
        return str(value) if isinstance(value, Text) else ""

    @property
    def seal(self) -> str:
        """The seal that stands in it; empty where there is none."""
        return self.text("seal")

    @property
    def sealed(self) -> bool:
        return self.tree is not None and Text("seal") in self.tree

    def at_key(self, key: str) -> At:
        """The place of a value, or of the entry."""
        value = self.tree.get(Text(key)) if self.tree is not None else None
        return value.at if isinstance(value, Text) else self.at


@dataclass(frozen=True, slots=True)
class Book:
    """A book and the small file with its last seal.

    ``torn`` is the byte at which an entry begins that a power cut left half written; it is none of the
    ``entries``.
    """

    kind: str
    path: str
    data: bytes
    entries: tuple[Written, ...]
    last: Last | None
    torn: int | None = None

    @property
    def sealed(self) -> bool:
        """Whether the book was ever brought under seal."""
        return self.last is not None or any(entry.sealed for entry in self.entries)

    @property
    def numbers(self) -> Mapping[str, int]:
        """Of each seal that stands in the book, the number of its entry."""
        return {entry.seal: entry.number for entry in self.entries if entry.seal}


def book_path(kind: str) -> str:
    """The path of a book in its notebook."""
    return RECORDS + BOOK_FILES[kind]


def read_book(root: Path, kind: str) -> Book:
    """The book of a kind; empty where there is none yet. Raises OSError, LastBroken."""
    path = book_path(kind)
    file = root / path
    data = file.read_bytes() if file.is_file() else b""
    return book_of(data, kind, path, read_last(file))


def book_of(data: bytes, kind: str, path: str, last: Last | None) -> Book:
    """The same from the bytes of the file."""
    torn = torn_at(data, kind, path, last)
    return Book(kind, path, data, tuple(entries_in(data[:torn], kind, path)), last, torn)


def torn_at(data: bytes, kind: str, path: str, last: Last | None) -> int | None:
    """The byte at which an entry begins that was never finished; None where all is whole."""
    if last is None or last.writing is None or not data[last.writing:].strip():
        return None
    before = last_entry(data[: last.writing], kind, path)
    if (before.seal if before is not None else "") != last.seal or (before is None) != (last.entry == 0):
        return None  # the book is not the one that was noted, so nothing may be set aside by this note
    tail = [*entries_in(data[last.writing:], kind, path)]
    return None if len(tail) == 1 and follows(tail[0], last) else last.writing


def follows(entry: Written, last: Last) -> bool:
    """Whether an entry is whole and the next one after the last seal."""
    return (
        entry.tree is not None and entry.seal == entry.real_seal
        and entry.number == last.entry + 1 and entry.text("previous") == last.seal
    )


def pieces_of(data: bytes) -> list[tuple[int, int]]:
    """Where each piece of a book begins and ends; the first may be no more than comments."""
    starts = [found.start() for found in _BEGIN.finditer(data)]
    if not starts or starts[0] > 0:
        starts.insert(0, 0)
    return list(zip(starts, [*starts[1:], len(data)], strict=True))


def entries_in(data: bytes, kind: str, path: str) -> Iterator[Written]:
    """The entries of a book in order. Comments and empty documents are no entries."""
    line = 0
    for start, end in pieces_of(data):
        entry = read_piece(data, start, end, kind, path, line)
        if entry is not None:
            yield entry
        line += len(_LINE_END.findall(data, start, end))


def last_entry(data: bytes, kind: str, path: str) -> Written | None:
    """The last entry of a book, without reading the others; its lines are counted from its own first."""
    for start, end in reversed(pieces_of(data)):
        entry = read_piece(data, start, end, kind, path, 0)
        if entry is not None:
            return entry
    return None


def read_piece(data: bytes, start: int, end: int, kind: str, path: str, above: int) -> Written | None:
    """One piece of a book, ``above`` lines down; None where no entry stands in it."""
    at = At(path, above + 1)
    try:
        text = data[start:end].decode("utf-8-sig" if start == 0 else "utf-8")
    except UnicodeDecodeError:
        return Written(start, end, at, problem="It holds a letter that is not UTF-8.")
    reading = read_text(text, path, above=above)
    errors = [found for found in reading.findings if found.level is Level.ERROR]
    if errors:
        return Written(start, end, errors[0].at, problem=errors[0].message, retyped=retyped(text, _as_sealed))
    trees = [tree for tree in reading.trees if tree != ""]
    if not trees:
        return None
    tree = trees[0]
    if not isinstance(tree, Map) or not tree:
        return Written(start, end, tree.at, problem="Keys and values stand in an entry, one a line.")
    first = next(iter(tree))
    number = tree[first]
    if first != kind or not isinstance(number, Text) or not (number.isascii() and number.isdigit()):
        return Written(start, end, tree.at, problem=f"An entry of this book begins with `{kind}:` and its number.")
    try:
        own = seal_of(tree)
        changed = Text("seal") in tree and tree[Text("seal")] != own
        return Written(start, end, tree.at, tree, number=int(number[:12]), real_seal=own,
                       retyped=retyped(text, _as_sealed) if changed else "")
    except Ambiguous:
        return Written(start, end, tree.at, problem="Two of its keys are spelt with the same letters.")


def _as_sealed(text: str) -> bool:
    """Whether an entry written like this says what it said when it was sealed."""
    reading = read_text(text, "")
    tree = next((tree for tree in reading.trees if tree != ""), None)
    if not isinstance(tree, Map) or any(found.level is Level.ERROR for found in reading.findings):
        return False
    try:
        return tree.get(Text("seal")) == seal_of(tree)
    except Ambiguous:
        return False
