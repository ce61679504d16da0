"""Where a thing stands: the file, the place in it, and what it is. An address names things, never files."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from site_builder.amend import Plain, TreePath, entry_at, look_up, tree_in
from site_builder.bench.forms.fields import fields_of
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.notebook import Notebook

SHOP = "-shop"
"""Names the shop itself in an address; no id begins with a hyphen."""


@dataclass(frozen=True, slots=True)
class Home:
    """A thing of the notebook and its place."""

    about: str
    kind: str
    """procedure, machine, material, skill, person, part, change, order, shop …"""
    file: str
    base: TreePath
    """Where in the file it stands; ``()`` for a thing that has a file of its own."""
    tree: Plain
    """All of the file."""

    @property
    def stands(self) -> Plain | None:
        return look_up(self.tree, self.base)


def home_of(root: Path, book: Notebook, about: str) -> Home | None:
    """Where a thing stands; None where there is none of this name, or its file cannot be read."""
    kind, file = "", ""
    base: TreePath = ()
    if about == SHOP or (book.shop is not None and about == str(book.shop.shop)):
        if book.shop is None:
            return None
        kind, file = "shop", str(book.shop.at.path)
    elif about in book.people:
        kind, file, base = "person", str(book.people[about].at.path), ("people", about)
    elif about in book.parts and book.shop is not None:
        where = "parts" if any(str(one) == about for one in book.shop.parts) else "products"
        kind, file, base = "part", str(book.shop.at.path), (where, about)
    else:
        entry = book.entry(about)
        if entry is None:
            return None
        file = str(entry.at.path)
    tree = tree_in(root, file)
    if not isinstance(tree, dict) or look_up(tree, base) is None:
        return None
    return Home(about, kind or next(iter(tree)), file, base, tree)


def path_of(home: Home, steps: Sequence[str]) -> TreePath | None:
    """The path that an address names, from the thing inward: words, and numbers within lists. None if it leads nowhere.

    The last may be a key that nothing stands at yet.
    """
    path: TreePath = home.base
    here: Plain | None = home.stands
    for number, one in enumerate(steps):
        if isinstance(here, list):
            if not one.isascii() or not one.isdigit() or int(one) >= len(here):
                return None
            path, here = (*path, int(one)), here[int(one)]
        elif isinstance(here, dict) and one in here:
            path, here = (*path, one), here[one]
        elif number == len(steps) - 1 and isinstance(here, dict | str):
            return (*path, one)
        else:
            return None
    return path


def model_at(home: Home, path: TreePath) -> type[Entry] | None:
    """What stands, or could stand, at a path; of a bare value under a name what it is as if it were an entry."""
    found = entry_at(home.tree, path)
    over = entry_at(home.tree, path[:-2]) if found is None and len(path) > 1 else None
    return found if over is None else next((one.model for one in fields_of(over) if one.key == path[-2]), None)


def address_of(home: Home, path: TreePath) -> list[str]:
    """The steps of a path as an address has them."""
    return [str(one) for one in path[len(home.base) :]]
