"""Names of values: all there are, the nearest to one that leads nowhere, the path of one."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rules.values.tables import is_dimension
from site_builder.notebook.kinds import kind_of
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.names import NamedValue
from site_builder.notebook.reckoning import Naming
from site_builder.notebook.vocabulary import Vocabulary

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


def words_of_values(analysis: Analysis) -> Vocabulary:
    """All names of values, ready to be held against a misspelt one."""
    return analysis.once("words of all values", lambda: Vocabulary(sorted(set(all_names(analysis)))))


def nearest_name(analysis: Analysis, naming: Naming) -> str:
    """What a name that leads nowhere may have meant; empty where nothing comes near."""
    head, stroke, rest = naming.name.partition("/")
    target = analysis.references.find(head, _KINDS) if stroke else None
    if target is not None and target.entry is not None:
        entry, kind = target.entry, target.kind
        near = analysis.once(("values within", id(entry)), lambda: Vocabulary(
            _inner_path(value) for value in analysis.references.values_in(entry, kind))).nearest(rest)
        return f"{head}/{near}" if near else ""
    if stroke and is_dimension(head):  # of what is in hand: a name alone would lead elsewhere, perhaps to itself
        near = words_of_values(analysis).nearest(rest)
        return f"{head}/{near}" if near else ""
    return words_of_values(analysis).nearest(naming.name)


def path_of(named: NamedValue) -> str:
    """The path by which the value can be named from anywhere."""
    owner = named.owner_id or getattr(named.entry, "title", "")
    return f"{owner}/{_inner_path(named)}"


def _inner_path(named: NamedValue) -> str:
    step = named.step.id if named.step is not None else None
    return f"{step}/{named.name}" if step is not None else named.name
