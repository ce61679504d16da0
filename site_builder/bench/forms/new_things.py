"""A thing that is begun in passing: its name is enough."""

from __future__ import annotations

from collections.abc import Sequence

from site_builder.amend import Change, Plain, id_for
from site_builder.notebook.kinds import by_key
from site_builder.notebook.notebook import Notebook

FOLDERS = {key: kind.folder for key, kind in by_key().items() if kind.folder}
"""Where a new file of each kind is laid."""
TOOLS = ("hand-tool", "machine", "gauge", "tooling", "protection", "sample")


def taken_in(book: Notebook) -> set[str]:
    """Every id that something has."""
    shop = {str(book.shop.shop)} if book.shop is not None else set()
    return {str(id_) for shelf in book.shelves.values() for id_ in shelf} | shop | set(book.unread)


def begun_thing(book: Notebook, title: str, kind: str, of: Sequence[str]) -> tuple[str, Change] | str:
    """A new thing by its name: its id, and the change that begins it. Words where it cannot be begun."""
    possible = [one for kinds in of for one in (TOOLS if kinds == "tool" else (kinds,))]
    kind = kind if kind in possible else possible[0]
    id_ = id_for(title, taken_in(book))
    if kind in FOLDERS and kind != "procedure":
        tree: dict[str, Plain] = {kind: id_, "title": title}
        return id_, Change(f"{FOLDERS[kind]}/{id_}.yml", (), None, tree)
    return in_a_list(book, kind, id_, title)


def in_a_list(book: Notebook, kind: str, id_: str, entry: Plain) -> tuple[str, Change] | str:
    """A person, a part, a product or a customer: an entry in a file that others stand in too."""
    if kind == "person":
        file = "skills/people.yml"
        if book.about_people is None:
            return id_, Change(file, (), None, {"people": {id_: entry}})
        return id_, Change(str(book.about_people.at.path), ("people", id_), None, entry)
    where = {"part": "parts", "product": "products", "customer": "customers"}.get(kind)
    shop = book.shop
    if where is None or shop is None:
        return "The shop has no page yet on which it could stand. Begin the shop first."
    held = {"parts": shop.parts, "products": shop.products, "customers": shop.customers}[where]
    if held:
        return id_, Change(str(shop.at.path), (where, id_), None, entry)
    return id_, Change(str(shop.at.path), (where,), None, {id_: entry})
