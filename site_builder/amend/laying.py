"""New lines laid out as a careful hand would write them into this file.

Lines come without the indentation of the first, since it goes where something stands already; all others are
indented in full.
"""

from __future__ import annotations

from dataclasses import dataclass

from site_builder.amend import quoting
from site_builder.amend.amendment import Plain
from site_builder.amend.habits import Habits
from site_builder.amend.placed import Leaf

_FEW = 4
"""So many keys at most stand between braces on one line."""
_WORDS = 5
"""A text of more words is a sentence, and a sentence has a line of its own."""
_BRIEF = 84
"""What stands between braces or brackets is no longer, so that a line of it can be read."""


@dataclass(frozen=True, slots=True)
class Laying:
    """Pieces of a tree as lines, after the habits of one file."""

    habits: Habits
    broken: bool = True
    """Whether a text may stand on several lines."""

    def inline(self, node: Plain, *, like: str = "") -> str:
        """The node as it stands between braces."""
        if isinstance(node, str):
            return quoting.in_one_line(node, flow=True, like=like)
        pad = self.habits.inside
        if isinstance(node, list):
            return f"[{pad}{', '.join(self.inline(one) for one in node)}{pad}]" if node else "[]"
        if not node:
            return "{}"
        within = ", ".join(f"{quoting.key(key, flow=True)}: {self.inline(value)}" for key, value in node.items())
        return f"{{{pad}{within}{pad}}}"

    def is_brief(self, node: Plain, *, braces: bool = False) -> bool:
        """Whether the node reads well on one line; ``braces`` where its neighbours stand between braces too."""
        if isinstance(node, str) or not node:
            return True
        if isinstance(node, list):
            return all(isinstance(one, str) and _is_word(one) for one in node) and len(self.inline(node)) <= _BRIEF
        if len(node) > _FEW or (len(node) == 1 and not braces):
            return False
        if len(self.inline(node)) > _BRIEF + 30 * braces:
            return False
        texts = [one for value in node.values() for one in (value if isinstance(value, list) else [value])]
        return all(isinstance(one, str) and _between_braces(one, sentences=braces) for one in texts)

    def pair(self, key: str, value: Plain, column: int, *, braces: bool = False) -> list[str]:
        """A key at ``column`` with its value."""
        name = quoting.key(key) + ":"
        if isinstance(value, str):
            first, *rest = self.text(value, column + self.habits.step, used=column + len(name) + 1)
            return [f"{name} {first}" if first else name, *rest]
        if self.is_brief(value, braces=braces):
            return [f"{name} {self.inline(value)}"]
        inner = self.below(value, column)
        return [name, *inner]

    def below(self, value: Plain, column: int) -> list[str]:
        """A list or a mapping line below line, under a key that stands at ``column``; every line indented in full."""
        if isinstance(value, list):
            at = column + self.habits.dash
            lines = [self.item(one, at, braces=_all_between_braces(value)) for one in value]
        elif isinstance(value, dict):
            at = column + self.habits.step
            lines = [self.pair(name, one, at) for name, one in value.items()]
        else:
            raise TypeError("a text has no lines below it")
        return [" " * at + first if number == 0 else first
                for piece in lines for number, first in enumerate(piece)]

    def item(self, value: Plain, column: int, *, braces: bool = False) -> list[str]:
        """A dash at ``column`` with what hangs on it."""
        first, *rest = self.behind(value, column + 2, braces=braces)
        return [f"- {first}", *rest]

    def behind(self, value: Plain, column: int, *, braces: bool = False) -> list[str]:
        """What stands behind a dash, from ``column`` on."""
        if isinstance(value, str):
            return self.text(value, column, used=column) if value else [""]
        if isinstance(value, list) or self.is_brief(value, braces=braces):
            return [self.inline(value)]
        pieces = [self.pair(key, one, column) for key, one in value.items()]
        return [" " * column + first if number == 0 and index else first
                for index, piece in enumerate(pieces) for number, first in enumerate(piece)]

    def text(
        self, text: str, column: int, *, used: int, old: Leaf | None = None, width: int | None = None,
    ) -> list[str]:
        """A text from letter ``used`` of its line on; where it is broken, the other lines begin at ``column``.

        ``old`` is what stood there: its quotes are kept, and so is its way of being broken.
        """
        like = old.style if old is not None else ""
        indent = " " * column
        if text == "":
            return ['""'] if like in ("'", '"') else [""]
        if not self.broken:
            return [quoting.in_one_line(text, like=like)]
        if "\n" in text:
            lines = self._in_lines(text, like, column, width)
            if lines is not None:
                return lines
        one = quoting.in_one_line(text, like=like)
        broken_before = width is not None
        if "\n" in text or (not broken_before and used + len(one) <= self.habits.width):
            return [one]
        folds = (">" if like == ">" else "plain") if broken_before else self.habits.folds
        limit = (width if width is not None else self.habits.fold_at) - column
        lines = quoting.folded(text, max(limit, 20)) if folds else None
        if lines is None or len(lines) < 2:
            return [one]
        if folds == "plain" and quoting.is_plain(text) and like not in ("'", '"') and not _looks_else(lines):
            return [lines[0], *(indent + line for line in lines[1:])]
        if like in ("'", '"'):
            return [one]
        return [">-", *(indent + line for line in lines)]

    def _in_lines(self, text: str, like: str, column: int, width: int | None) -> list[str] | None:
        indent = " " * column
        body = text[:-1]
        if like == ">" and text.endswith("\n") and "\n" not in body:
            lines = quoting.folded(body, max((width or self.habits.fold_at) - column, 20))
            if lines is not None:
                return [">", *(indent + line for line in lines)]
        written = quoting.in_lines(text)
        if written is None:
            return None
        sign, lines = written
        return [sign, *(indent + line if line else "" for line in lines)]


def _looks_else(lines: list[str]) -> bool:
    """Whether a line of a broken text would be taken for a comment or the end of a document."""
    return any(line.startswith(("#", "---", "...")) for line in lines)


def _is_word(text: str) -> bool:
    return len(text.split()) <= 2 and quoting.is_plain(text, flow=True)


def _between_braces(text: str, *, sentences: bool) -> bool:
    return quoting.is_plain(text, flow=True) and (sentences or (len(text.split()) <= _WORDS and text[-1] not in ".!?"))


def _all_between_braces(values: list[Plain]) -> bool:
    return len(values) > 1 and all(isinstance(one, dict) and len(one) > 1 for one in values)
