"""A YAML text as a tree in which every piece knows from which letter to which it is written.

The same events of the C parser as in ``notebook.reader``, kept with their beginnings and ends. Places are letters of
the text as the reader sees it: without byte order mark, every line end a single ``\\n``.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import yaml

from site_builder.amend.amendment import Plain

_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class Unspliceable(Exception):
    """Something is written in a way that cannot be changed without disturbing what stands around it."""

    def __init__(self, place: int, why: str) -> None:
        super().__init__(why)
        self.place = place
        self.why = why


@dataclass(slots=True)
class Leaf:
    """A scalar, from its first letter or quote to behind its last; ``style`` is its quote, ``|``, ``>`` or empty."""

    start: int
    end: int
    style: str
    value: str


@dataclass(slots=True)
class Pair:
    """A key and its value."""

    key: Leaf
    value: Placed


@dataclass(slots=True)
class Mapped:
    """A mapping; in block style it ends where its last value ends."""

    start: int
    end: int
    flow: bool
    pairs: list[Pair] = field(default_factory=list)


@dataclass(slots=True)
class Listed:
    """A list; in block style it ends where its last item ends."""

    start: int
    end: int
    flow: bool
    items: list[Placed] = field(default_factory=list)


Placed = Leaf | Mapped | Listed


def place(text: str) -> Placed | None:
    """The one document of a text; None if there is none. Raises yaml.YAMLError, Unspliceable."""
    loader = _Loader(text)
    top: Placed | None = None
    stack: list[Mapped | Listed] = []
    keys: list[Leaf | None] = []
    try:
        while True:
            event = loader.get_event()
            kind = type(event)
            if event is None or kind is yaml.StreamEndEvent:
                return top
            if kind in (yaml.MappingEndEvent, yaml.SequenceEndEvent):
                _close(stack.pop(), event)
                keys.pop()
                continue
            if kind is yaml.AliasEvent:
                raise Unspliceable(event.start_mark.index, "This line repeats something that is named elsewhere.")
            node = _open(event, text)
            if node is None:
                continue
            if not stack:
                if top is not None:
                    raise Unspliceable(node.start, "A second document begins here.")
                top = node
            elif isinstance(stack[-1], Listed):
                stack[-1].items.append(node)
            elif (key := keys[-1]) is None:
                if not isinstance(node, Leaf):
                    raise Unspliceable(node.start, "A list or a mapping stands here as a key.")
                keys[-1] = node
                continue
            else:
                stack[-1].pairs.append(Pair(key, node))
                keys[-1] = None
            if not isinstance(node, Leaf):
                stack.append(node)
                keys.append(None)
    finally:
        loader.dispose()


def _open(event: Any, text: str) -> Placed | None:
    start = event.start_mark.index
    kind = type(event)
    if kind is yaml.ScalarEvent:
        if event.anchor or event.tag:
            raise Unspliceable(start, "This text carries a name or a tag.")
        style = event.style or ""
        end = event.end_mark.index
        if style in ("|", ">"):
            end = _block_end(text, start, end)
        return Leaf(start, end, style, event.value)
    if kind is yaml.MappingStartEvent:
        return Mapped(start, event.end_mark.index, bool(event.flow_style))
    if kind is yaml.SequenceStartEvent:
        return Listed(start, event.end_mark.index, bool(event.flow_style))
    return None


def _block_end(text: str, start: int, end: int) -> int:
    """Where the last line of a text behind ``|`` or ``>`` ends; empty lines behind it count only with ``+``."""
    header = text[start : text.find("\n", start) if "\n" in text[start:] else len(text)]
    if "+" in header.split("#")[0]:
        return end - 1 if text[end - 1 : end] == "\n" else end
    return start + len(text[start:end].rstrip(" \n"))


def _close(node: Mapped | Listed, event: Any) -> None:
    if node.flow:
        node.end = event.end_mark.index
    elif isinstance(node, Mapped):
        node.end = node.pairs[-1].value.end if node.pairs else node.end
    else:
        node.end = node.items[-1].end if node.items else node.end


def plain_of(node: Placed) -> Plain:
    """The tree without places, as ``amendment.plain`` has it."""
    if isinstance(node, Mapped):
        return {pair.key.value: plain_of(pair.value) for pair in node.pairs}
    if isinstance(node, Listed):
        return [plain_of(one) for one in node.items]
    return node.value
