"""A new file, as it is begun by a careful hand: the comment that leads editors to its grammar, then its keys."""

from __future__ import annotations

from site_builder.amend.amendment import Plain
from site_builder.amend.habits import Habits
from site_builder.amend.laying import Laying


def fresh_file(name: str, tree: dict[str, Plain]) -> str:
    """The text of a new file at this path of the notebook."""
    kind = next(iter(tree))
    up = "../" * name.count("/")
    laying = Laying(Habits())
    lines = [line for key, value in tree.items() for line in laying.pair(key, value, 0)]
    return "\n".join([f"# yaml-language-server: $schema={up}.schemas/{kind}.json", *lines]) + "\n"
