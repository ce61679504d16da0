"""Several changes of one act, each made on what the one before leaves."""

from __future__ import annotations

from collections.abc import Mapping

from site_builder.amend import Amendment, Change, Plain, TreePath, look_up
from site_builder.amend.amendment import put
from site_builder.bench.forms.placing import in_order, placed, short
from site_builder.notebook.model.entry import Entry


class Draft:
    """Changes of one file, and the tree as it will be after them; changes of other files go along."""

    def __init__(self, file: str, tree: Plain) -> None:
        self.file = file
        self.tree = tree
        self.changes: list[Change] = []

    def add(self, *changes: Change) -> None:
        """Changes made of what the tree is by now."""
        for one in changes:
            self.changes.append(one)
            if one.file == self.file:
                self.tree = _put(self.tree, one)

    def put(self, path: TreePath, shall: Plain | None) -> None:
        """Something else at a place, which need not be there yet."""
        if look_up(self.tree, path) != shall:
            self.add(placed(self.file, self.tree, path, shall))

    def entry(self, path: TreePath, model: type[Entry], shall: Mapping[str, Plain | None]) -> None:
        """New values of the keys of an entry: it stays short where it can, and what was asked of them is answered."""
        was = look_up(self.tree, path)
        if isinstance(was, dict):
            for key, value in shall.items():
                self.put((*path, key), value)
            held = look_up(self.tree, (*path, "asked"))
            if isinstance(held, dict) and any(key in held for key in shall):
                left: dict[str, Plain] = {key: text for key, text in held.items() if key not in shall}
                self.put((*path, "asked"), left or None)
            return
        now: dict[str, Plain] = {model.MAIN: was} if isinstance(was, str) and model.MAIN else {}
        now |= {key: value for key, value in shall.items() if value is not None}
        for key, value in shall.items():
            if value is None:
                now.pop(key, None)
        if now:
            self.put(path, short(model, in_order(model, now)))

    def amendment(self, what: str) -> Amendment:
        """All of it as one act."""
        return Amendment(what, tuple(self.changes))


def _put(tree: Plain, change: Change) -> Plain:
    if change.path == () and change.shall is not None:
        return change.shall
    return put(tree, change)
