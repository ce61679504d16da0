"""A new value at a place of a file, in the form that stands there: a short form becomes a long one where it must."""

from __future__ import annotations

from site_builder.amend import Change, Plain, TreePath, entry_at, look_up, main_key, writing_order
from site_builder.notebook.model.entry import Entry

ALWAYS_A_LIST = ("steps", "points", "hazards", "troubles", "never", "checklist", "upkeep")
"""Of these a careful hand writes a list even of one, if it is more than a line."""


def placed(file: str, tree: Plain, path: TreePath, shall: Plain | None) -> Change:
    """What stands at ``path`` becomes ``shall``; None takes it away, and with it a mapping that held nothing else."""
    if shall is None:
        return _taken_away(file, tree, path)
    depth = next(n for n in range(len(path), -1, -1) if look_up(tree, path[:n]) is not None)
    stands = look_up(tree, path[:depth])
    if depth == len(path):
        return Change(file, path, stands, shall)
    if isinstance(stands, dict):
        return Change(file, path[: depth + 1], None, _nested(path[depth + 1 :], shall))
    if isinstance(stands, str):
        model = entry_at(tree, path[:depth])
        main = main_key(model) if model is not None else ""
        held: dict[str, Plain] = {main: stands} if main and stands not in ("", "ask") else {}
        key = path[depth]
        assert isinstance(key, str)
        return Change(file, path[:depth], stands, in_order(model, {**held, key: _nested(path[depth + 1 :], shall)}))
    raise LookupError(path)


def one_more(file: str, tree: Plain, path: TreePath, item: Plain, at: int | None = None) -> Change:
    """One more of what stands at ``path``, at the end or before number ``at``. What stands alone becomes a list."""
    was = look_up(tree, path)
    key = path[-1] if path else ""
    if was is None or was in ("", "ask"):
        alone: Plain = [item] if key == "steps" or (key in ALWAYS_A_LIST and isinstance(item, dict)) else item
        return placed(file, tree, path, alone)
    old = was if isinstance(was, list) else [was]
    place = len(old) if at is None else at
    return Change(file, path, was, [*old[:place], item, *old[place:]])


def in_order(model: type[Entry] | None, entry: dict[str, Plain]) -> dict[str, Plain]:
    """The keys as a careful hand orders them."""
    order = writing_order(model) if model is not None else ()
    return dict(sorted(entry.items(), key=lambda pair: order.index(pair[0]) if pair[0] in order else len(order)))


def short(model: type[Entry] | None, entry: dict[str, Plain]) -> Plain:
    """An entry that says nothing but its main key is written as that alone."""
    main = main_key(model) if model is not None else ""
    if main and list(entry) == [main]:
        return entry[main]
    return in_order(model, entry)


def _nested(path: TreePath, shall: Plain) -> Plain:
    for key in reversed(path):
        assert isinstance(key, str)
        shall = {key: shall}
    return shall


def _taken_away(file: str, tree: Plain, path: TreePath) -> Change:
    if path and isinstance(path[-1], int):
        was = look_up(tree, path[:-1])
        assert isinstance(was, list)
        left = [*was[: path[-1]], *was[path[-1] + 1 :]]
        return Change(file, path[:-1], was, left) if left else _taken_away(file, tree, path[:-1])
    above = look_up(tree, path[:-1])
    held_alone = isinstance(above, dict) and len(above) == 1 and len(path) > 1
    if held_alone:
        return _taken_away(file, tree, path[:-1])
    return Change(file, path, look_up(tree, path), None)
