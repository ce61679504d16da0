"""Amendments by what a hand does: change, add, take away, begin, move, split and join.

Each takes what was seen (``was``) and never looks at the disk: if the file says something else by the time of writing,
``write`` tells so. ``tree_in`` gives what a file says now.
"""

from __future__ import annotations

import re
from pathlib import Path

from site_builder.amend.amendment import Amendment, Change, Plain, TreePath, look_up, plain
from site_builder.notebook.files import NotebookFile
from site_builder.notebook.model.parsed_values import id_from
from site_builder.notebook.reader import decode, read_bytes, read_text

_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ufeff\ufffe\uffff\ud800-\udfff]")


def tree_in(root: Path, file: str) -> Plain | None:
    """What a file says now, as texts, lists and mappings; None if it cannot be read."""
    item = NotebookFile(root / file, file)
    data, _ = read_bytes(item.file, item.path)
    if data is None:
        return None
    text, found = decode(data, file)
    reading = read_text(text, file)
    return plain(reading.trees[0]) if not found and reading.whole and len(reading.trees) == 1 else None


def clean(text: str, was: Plain | None = None) -> str:
    """A text from a form as it is written down: one kind of line end, no characters that no keyboard writes.

    Where the text before ended with a line end (folded behind ``>``), so does this.
    """
    text = re.sub(r"\r\n?|[\x85\u2028\u2029]", "\n", text)
    text = _CONTROL.sub("", text.replace("\t", " ")).strip()
    text = "\n".join(line.rstrip() for line in text.split("\n"))
    return text + "\n" if isinstance(was, str) and was.endswith("\n") and text else text


def change(what: str, file: str, path: TreePath, was: Plain | None, shall: Plain | None) -> Amendment:
    """Something else at one place: a text, a value, a list, a mapping. ``shall`` None takes it away."""
    return Amendment(what, (Change(file, path, was, clean(shall, was) if isinstance(shall, str) else shall),))


def add_key(
    what: str, file: str, path: TreePath, was: Plain | None, key: str, value: Plain, *, main: str = "",
) -> Amendment:
    """A key more in the entry at ``path``, which reads ``was``. A short form becomes a long one under its ``main`` key
    (``grammar.main_key``); where nothing stood, the entry is begun with this key."""
    value = clean(value) if isinstance(value, str) else value
    if isinstance(was, dict):
        return Amendment(what, (Change(file, (*path, key), was.get(key), value),))
    if was is None or was == "":
        return Amendment(what, (Change(file, path, was, {key: value}),))
    if not isinstance(was, str) or not main:
        raise ValueError("a list has no keys")
    return Amendment(what, (Change(file, path, was, {main: was, key: value}),))


def add_item(what: str, file: str, path: TreePath, was: Plain | None, item: Plain, at: int | None = None) -> Amendment:
    """One more in the list at ``path``, before number ``at`` or at the end.

    Where nothing stood a list is begun; where one thing stood alone, it becomes the first of a list.
    """
    item = clean(item) if isinstance(item, str) else item
    old = was if isinstance(was, list) else [] if was is None or was == "" else [was]
    place = len(old) if at is None else at
    return Amendment(what, (Change(file, path, was, [*old[:place], item, *old[place:]]),))


def remove_item(what: str, file: str, path: TreePath, was: list[Plain], at: int) -> Amendment:
    """The list at ``path`` without number ``at``; with its last item the list goes too."""
    left = [*was[:at], *was[at + 1 :]]
    return Amendment(what, (Change(file, path, was, left or None),))


def remove(what: str, file: str, path: TreePath, was: Plain) -> Amendment:
    """Without what stands at ``path``."""
    return Amendment(what, (Change(file, path, was, None),))


def move_item(what: str, file: str, path: TreePath, was: list[Plain], start: int, end: int) -> Amendment:
    """Number ``start`` of the list at ``path`` at place ``end`` of the new list; its lines go as they are written."""
    left = [*was[:start], *was[start + 1 :]]
    return Amendment(what, (Change(file, path, was, [*left[:end], was[start], *left[end:]]),))


def split_step(what: str, file: str, path: TreePath, was: list[Plain], at: int, first: str, second: str) -> Amendment:
    """Step number ``at`` as two: what it has besides its words stays with the first."""
    step = was[at]
    one: Plain = {**step, "do": clean(first)} if isinstance(step, dict) else clean(first)
    other: Plain = {"do": clean(second)}
    return Amendment(what, (Change(file, path, was, [*was[:at], one, other, *was[at + 1 :]]),))


def join_steps(what: str, file: str, path: TreePath, was: list[Plain], at: int, words: str) -> Amendment | str:
    """Steps ``at`` and ``at + 1`` as one with these words. The key that both have is named instead, where what
    hangs on them cannot be put together without choosing."""
    first, second = _long(was[at]), _long(was[at + 1])
    joined = dict(first)
    for key, value in second.items():
        if key == "do":
            continue
        old = joined.get(key)
        if old is None:
            joined[key] = value
        elif old != value:
            together = None if key in _ONE else _together(old, value)
            if together is None:
                return key
            joined[key] = together
    joined["do"] = clean(words)
    return Amendment(what, (Change(file, path, was, [*was[:at], joined, *was[at + 2 :]]),))


def _long(step: Plain) -> dict[str, Plain]:
    return step if isinstance(step, dict) else {"do": step}


_ONE = (
    "id", "use", "part", "makes", "skill", "when", "per", "load", "hands", "until", "repeat", "time", "wait", "where",
)
"""Keys of which a step has one: two of them are a choice."""


def _together(old: Plain, new: Plain) -> Plain | None:
    if isinstance(old, dict) and isinstance(new, dict) and not old.keys() & new.keys():
        return {**old, **new}
    if isinstance(old, list) or isinstance(new, list):
        both = (old if isinstance(old, list) else [old]), (new if isinstance(new, list) else [new])
        return [*both[0], *(one for one in both[1] if one not in both[0])]
    return None


def new_file(what: str, file: str, tree: dict[str, Plain]) -> Amendment:
    """A file that is not there yet; its first key says what it is: ``{"procedure": "wind-a-coil", "title": …}``."""
    return Amendment(what, (Change(file, (), None, tree),))


def remove_file(what: str, file: str, was: Plain) -> Amendment:
    """Without this file; what stood in it is kept with the amendment."""
    return Amendment(what, (Change(file, (), was, None),))


def id_for(title: str, taken: frozenset[str] | set[str], otherwise: str = "thing") -> str:
    """An id made of a title that nothing else has: ``Grind the sole`` as ``grind-the-sole``, then ``…-2``."""
    base = id_from(title)[:60].strip("-") or otherwise
    number = 1
    while (name := base if number == 1 else f"{base}-{number}") in taken:
        number += 1
    return name


__all__ = ["add_item", "add_key", "change", "clean", "id_for", "join_steps", "look_up", "move_item", "new_file",
           "remove", "remove_file", "remove_item", "split_step", "tree_in"]
