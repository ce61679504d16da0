"""A kind of mistake: what a hand does wrong, in which files, and what is expected to be said of it, where."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from enum import Enum
from typing import NamedTuple


class Fix(Enum):
    """How the fix of the finding is tried."""

    TRIED = "where it is literal text it is written, and the finding goes"
    RESTORES = "it is literal text, and written it brings back what stood there"


@dataclass(frozen=True, slots=True)
class Mistake:
    """One mistake in one file: the file as it stands then, and the lines at which it may be named."""

    path: str
    before: str
    after: str
    lines: frozenset[int]


class Kind(NamedTuple):
    """One kind of mistake: in files that begin with one of the keys ``files``, what ``find`` matches becomes ``put``.

    It is named at its place by a finding with one of the codes of ``says`` (any finding, where none is given) on a
    line of what was put there, or on one that ``also`` matches. ``known`` is False where nobody could tell it from
    what stands in the notebook.
    """

    what: str
    files: str
    find: str
    put: str | Callable[[re.Match[str]], str | None]
    says: str = ""
    fix: Fix = Fix.TRIED
    also: str = ""
    known: bool = True

    def made_in(self, files: Mapping[str, str]) -> Iterator[Mistake]:
        """Each way to make it in these files, from path to text."""
        pattern, wanted = re.compile(self.find, re.MULTILINE), self.files.split()
        for path, text in files.items():
            if wanted and kind_of(text) not in wanted:
                continue
            for match in pattern.finditer(text):
                put = match.expand(self.put) if isinstance(self.put, str) else self.put(match)
                if put is None or put == match[0]:
                    continue
                after = text[: match.start()] + put + text[match.end() :]
                yield Mistake(path, text, after, self._lines(after, match.start(), put))

    def _lines(self, after: str, start: int, put: str) -> frozenset[int]:
        first = after.count("\n", 0, start) + 1
        lines = set(range(first, first + put.rstrip("\n").count("\n") + 1))
        if put.startswith("\n"):
            lines.add(first + 1)
        if self.also:
            lines |= {after.count("\n", 0, m.start()) + 1 for m in re.finditer(self.also, after, re.MULTILINE)}
        return frozenset(lines)


def kind_of(text: str) -> str:
    """The first key of a file, or of the last entry of a book."""
    found = re.search(r"^([a-z][a-z-]*):", text, re.MULTILINE)
    return found[1] if found else ""
