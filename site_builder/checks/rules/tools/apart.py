"""Materials that must never meet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from site_builder.notebook.model.things import Material
from site_builder.notebook.notebook import Notebook


def apart(nb: Notebook) -> Mapping[str, frozenset[str]]:
    """Of each material those it must not meet, said on either side; a group speaks for its members."""
    found: dict[str, set[str]] = {}
    for material in nb.materials.values():
        for other in material.apart:
            for one in _members(nb.materials, str(material.id)):
                for kept in _members(nb.materials, str(other)):
                    if one != kept:
                        found.setdefault(one, set()).add(kept)
                        found.setdefault(kept, set()).add(one)
    return {id_: frozenset(others) for id_, others in found.items()}


def _members(materials: Mapping[str, Material], id_: str) -> Iterator[str]:
    yield id_
    if id_ in materials:
        yield from map(str, materials[id_].members)
