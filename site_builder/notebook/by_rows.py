"""Tables of amounts: an entry with ``by`` and a table stands for one entry a row, each with its ``for``.

``{material: salt, by: season, amount: {spring: 2 lb, summer: 3 lb}}`` means the same as two lines of salt, one
``for: {season: spring}`` and one ``for: {season: summer}``. The tree is brought into that longer form before the
model reads it, so that nothing behind it knows a second way of depending on a variant.
"""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.notebook.tree import Map, Node, Seq, Text, text_at

HOSTS = ("materials", "tools", "time", "yield")
"""Keys under which an entry may hold tables of amounts."""
TABLED = ("amount", "setup", "each", "load", "lot", "scrap", "rework", "returns")
"""Keys of such an entry that may be a table."""

_Rows = dict[tuple[Text, ...], Node]


def spread_rows(node: Node) -> None:
    """Bring every table of amounts in the tree into its longer form, in place."""
    if isinstance(node, Seq):
        for one in node:
            spread_rows(one)
    elif isinstance(node, Map):
        for key, value in node.items():
            if key in HOSTS:
                _spread_under(node, key, value)
            else:
                spread_rows(value)


def _spread_under(host: Map, key: Text, value: Node) -> None:
    entries = list(value) if isinstance(value, Seq) else [value]
    spread = [longer for entry in entries for longer in _longer(entry)]
    if len(spread) == len(entries) and all(a is b for a, b in zip(spread, entries, strict=True)):
        return
    out = Seq(spread)
    out.path, out.line, out.column, out.flow = value.path, value.line, value.column, False
    host[key] = out


def _longer(entry: Node) -> Iterator[Node]:
    """The entry itself, or an entry for each row of its tables."""
    names = _names(entry.get(Text("by"))) if isinstance(entry, Map) else ()
    tables = {key: value for key, value in entry.items() if key in TABLED and isinstance(value, Map)} \
        if isinstance(entry, Map) else {}
    if not isinstance(entry, Map) or not names or not tables:
        yield entry
        return
    cells: dict[Text, _Rows] = {}
    for key, table in tables.items():
        rows: _Rows = {}
        if not _rows(table, len(names), (), rows):
            yield entry  # not as deep as `by` says; the model tells it where it stands
            return
        cells[key] = rows
    for row in dict.fromkeys(row for rows in cells.values() for row in rows):
        yield _of_row(entry, names, row, {key: rows[row] for key, rows in cells.items() if row in rows}, set(cells))


def _names(by: Node | None) -> tuple[Text, ...]:
    """The names a table is read by: one, several, or each under ``name``."""
    found = []
    for one in by if isinstance(by, Seq) else [by]:
        name = one.get(Text("name")) if isinstance(one, Map) else one
        if not isinstance(name, Text) or not name:
            return ()
        found.append(name)
    return tuple(found)


def _rows(table: Map, depth: int, before: tuple[Text, ...], found: _Rows) -> bool:
    for name, inside in table.items():
        if depth == 1:
            if isinstance(inside, Map):
                return False
            found[(*before, name)] = inside
        elif not isinstance(inside, Map) or not _rows(inside, depth - 1, (*before, name), found):
            return False
    return True


def _of_row(entry: Map, names: tuple[Text, ...], row: tuple[Text, ...], cells: dict[Text, Node],
            tabled: set[Text]) -> Map:
    out = _like(entry)
    for key, value in entry.items():
        if key in tabled:
            if key in cells:
                out[key] = cells[key]
        elif key != "by" and key != "for":
            out[key] = value
    written = entry.get(Text("for"))
    choices = written if isinstance(written, Seq) else [written]
    narrowed = Seq(_narrowed(choice, entry, names, row) for choice in choices)
    narrowed.path, narrowed.line, narrowed.column, narrowed.flow = entry.path, entry.line, entry.column, False
    out[text_at("for", entry.at)] = narrowed if len(narrowed) > 1 else narrowed[0]
    return out


def _narrowed(choice: Node | None, entry: Map, names: tuple[Text, ...], row: tuple[Text, ...]) -> Node:
    """A condition with the names of the row added."""
    if choice is not None and not isinstance(choice, Map):
        return choice
    out = _like(entry)
    out.update(choice or {})
    out.update(zip(names, row, strict=True))
    return out


def _like(entry: Map) -> Map:
    out = Map()
    out.path, out.line, out.column, out.flow = entry.path, entry.line, entry.column, False
    return out
