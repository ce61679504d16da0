"""An amendment as a value: where something stands, what the tree says there now, and what shall stand there."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from site_builder.notebook.tree import Map, Node, Seq

Plain = str | list["Plain"] | dict[str, "Plain"]
"""A piece of a tree without places: a text, a list or a mapping. Every scalar is text, as the reader has it."""

TreePath = tuple[str | int, ...]
"""Keys and numbers of list items (from 0) from the top of the file inward; ``()`` is the whole file."""


@dataclass(frozen=True, slots=True)
class Change:
    """What stands at one place of one file, and what shall stand there.

    ``was`` is what whoever asks for the change has seen there; ``None`` means that nothing stands there. If the file
    says something else by the time of writing, nothing is written (``Conflict``). ``shall`` None takes away what stands
    there. With the path ``()`` and ``was`` None a file is begun; with ``shall`` None it is taken away.
    """

    file: str
    """The path from the notebook's folder, with slashes: ``procedures/foot/true-the-sole.yml``."""
    path: TreePath
    was: Plain | None
    shall: Plain | None
    after: str | None = None
    """The key behind which a new key is written; empty: before all others; None: where the grammar has it."""


@dataclass(frozen=True, slots=True)
class Renaming:
    """A file that gets another name, with all its bytes."""

    file: str
    to: str


@dataclass(frozen=True, slots=True)
class Words:
    """Letters of a story (free Markdown) that are replaced: ``was`` stands from letter ``start`` on."""

    file: str
    start: int
    was: str
    shall: str


@dataclass(frozen=True, slots=True)
class Amendment:
    """One act of writing: all of its changes are made, or none."""

    what: str
    """In trade words, for the list of what was written: ``The limit of step “Sweep”``."""
    changes: tuple[Change, ...] = ()
    renamings: tuple[Renaming, ...] = ()
    words: tuple[Words, ...] = field(default=())

    def __add__(self, other: Amendment) -> Amendment:
        """Both as one act, under the name of the first."""
        return Amendment(self.what, self.changes + other.changes, self.renamings + other.renamings,
                         self.words + other.words)

    @property
    def files(self) -> tuple[str, ...]:
        """Every file that is read or written, each once, by the name that it has before."""
        named = (*(c.file for c in self.changes), *(r.file for r in self.renamings), *(w.file for w in self.words))
        return tuple(dict.fromkeys(named))


def plain(node: Node) -> Plain:
    """A tree of the reader without its places."""
    if isinstance(node, Map):
        return {str(key): plain(value) for key, value in node.items()}
    if isinstance(node, Seq):
        return [plain(one) for one in node]
    return str(node)


def look_up(tree: Plain, path: Sequence[str | int]) -> Plain | None:
    """What stands at a path, or None if nothing does."""
    here: Plain = tree
    for step in path:
        if isinstance(here, dict):
            if not isinstance(step, str) or step not in here:
                return None
            here = here[step]
        elif isinstance(here, list) and isinstance(step, int) and 0 <= step < len(here):
            here = here[step]
        else:
            return None
    return here


def put(tree: Plain, change: Change) -> Plain:
    """The tree with this one change made; the tree given is left as it is. Raises LookupError if there is no place."""
    return _put(tree, change.path, change)


def _put(here: Plain, path: TreePath, change: Change) -> Plain:
    if not path:
        if change.shall is None:
            raise LookupError("a whole tree cannot be taken out of itself")
        return change.shall
    step, rest = path[0], path[1:]
    if isinstance(here, dict) and isinstance(step, str):
        if rest or (step in here and change.shall is not None):
            return {key: _put(value, rest, change) if key == step else value for key, value in here.items()} \
                if step in here else _missing(step)
        if change.shall is None:
            return {key: value for key, value in here.items() if key != step}
        return _with_key(here, step, change.shall, change.after)
    if isinstance(here, list) and isinstance(step, int) and 0 <= step < len(here):
        if not rest and change.shall is None:
            return [*here[:step], *here[step + 1 :]]
        return [*here[:step], _put(here[step], rest, change), *here[step + 1 :]]
    return _missing(step)


def _with_key(here: dict[str, Plain], key: str, value: Plain, after: str | None) -> dict[str, Plain]:
    if after == "":
        return {key: value, **here}
    if after is None or after not in here:
        return {**here, key: value}
    out: dict[str, Plain] = {}
    for name, stands in here.items():
        out[name] = stands
        if name == after:
            out[key] = value
    return out


def _missing(step: str | int) -> Plain:
    raise LookupError(step)
