"""Names of values: all there are, the nearest to one that leads nowhere, the path of one."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.names import NamedValue
from site_builder.notebook.nearest import nearest
from site_builder.notebook.reckoning import Naming
from site_builder.notebook.references import kind_of

_KINDS = ("procedure", "part", "tool", "material")


def all_names(analysis: Analysis) -> Iterator[str]:
    """The names of all values of the notebook, and the conditions under which values are given."""
    nb = analysis.notebook
    shelves: tuple[dict[str, Entry], ...] = (
        {**nb.procedures}, {**nb.parts}, {**nb.tools}, {**nb.materials},
    )
    for shelf in shelves:
        for entry in shelf.values():
            for value in analysis.references.values_in(entry, kind_of(entry)):
                yield value.name
                for limit in value.limits:
                    yield from map(str, limit.given)


def nearest_name(analysis: Analysis, naming: Naming) -> str:
    """What a name that leads nowhere may have meant; empty where nothing comes near."""
    head, stroke, rest = naming.name.partition("/")
    target = analysis.references.find(head, _KINDS) if stroke else None
    if target is not None and target.entry is not None:
        inner = [_inner_path(value) for value in analysis.references.values_in(target.entry, target.kind)]
        near = _near(rest, inner)
        return f"{head}/{near}" if near else ""
    return _near(naming.name, sorted(set(all_names(analysis))))


def path_of(named: NamedValue) -> str:
    """The path by which the value can be named from anywhere."""
    owner = named.owner_id or getattr(named.entry, "title", "")
    return f"{owner}/{_inner_path(named)}"


def _inner_path(named: NamedValue) -> str:
    step = named.step.id if named.step is not None else None
    return f"{step}/{named.name}" if step is not None else named.name


def _near(word: str, names: list[str]) -> str:
    return nearest(word, names)
