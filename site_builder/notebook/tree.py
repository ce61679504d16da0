"""The tree a YAML file becomes: texts, mappings and lists that know where they stand.

Every scalar stays text. The place where it stands decides later what it means, so
``0.10``, ``1:30``, ``012`` and ``no`` arrive as they were written.
"""

from __future__ import annotations

from typing import Any

from site_builder.notebook.finding import At


class Text(str):
    """A scalar as written.

    ``offset`` is 1 where a quote stands before the first letter, and -1 for a text on several lines,
    of whose letters nobody can say where they stand.
    """

    __slots__ = ("column", "line", "offset", "path")
    path: str
    line: int
    column: int
    offset: int

    @property
    def at(self) -> At:
        return At(self.path, self.line, self.column)

    def at_letter(self, index: int) -> At:
        """Where the letter number ``index`` stands; the start of a text on several lines."""
        if self.offset < 0:
            return self.at
        return At(self.path, self.line, self.column + self.offset + index)


class Map(dict[Text, Any]):
    """A mapping; its keys are :class:`Text`. ``flow`` is true between braces."""

    __slots__ = ("column", "flow", "known", "line", "path")
    path: str
    line: int
    column: int
    flow: bool
    known: frozenset[str]
    """The keys that may stand here, once the model has looked at it."""

    @property
    def at(self) -> At:
        return At(self.path, self.line, self.column)

    def key(self, name: str) -> Text | None:
        """The key as written, with its place."""
        for key in self:
            if key == name:
                return key
        return None


class Seq(list[Any]):
    """A list."""

    __slots__ = ("column", "flow", "line", "path")
    path: str
    line: int
    column: int
    flow: bool

    @property
    def at(self) -> At:
        return At(self.path, self.line, self.column)


Node = Text | Map | Seq


def text_at(value: str, at: At) -> Text:
    """A text that stands for something not written out, placed where it belongs."""
    text = Text(value)
    text.path, text.line, text.column = at
    text.offset = 0
    return text
