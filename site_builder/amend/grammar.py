"""What the grammar says of a place in a file: which entry stands there, its main key, and the order of its keys."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from site_builder.amend.amendment import Plain, TreePath, look_up
from site_builder.notebook.kinds import models
from site_builder.notebook.model.entry import Entry

_FRONT = ("id", "title", "name", "do", "use", "part", "makes", "skill", "after")
_BACK = ("steps", "time", "yield", "troubles", "pictures", "questions", "revisions")
_BASE = ("for", "because", "source", "told", "asked", "note")


def entry_at(tree: Plain, path: TreePath) -> type[Entry] | None:
    """The kind of entry that stands, or could stand, at a path of a file with this tree; None if none does.

    The entry stands there in its long or in its short form, or does not stand yet.
    """
    kind = next(iter(tree), "") if isinstance(tree, dict) else ""
    annotation: Any = models().get(kind)
    for step in path:
        annotation = _within(annotation, step)
        if annotation is None:
            return None
    found = _entries(annotation)
    return found[0] if found else None


def main_key(model: type[Entry]) -> str:
    """The key that a bare text stands for; empty if none may stand there."""
    return model.MAIN


@cache
def writing_order(model: type[Entry]) -> tuple[str, ...]:
    """The keys of an entry in the order in which a careful hand writes them."""
    names = [field.alias or name for name, field in model.model_fields.items() if name not in ("at", "asked")]
    is_file = model in models().values()
    first = [kind for kind, one in models().items() if one is model]
    front = [*first, *((model.MAIN,) if model.MAIN and model.MAIN not in _FRONT else ()), *_FRONT]
    if is_file:
        front.append("because")
    placed = {*front, *_BACK, *_BASE}
    order = [*front, *(name for name in names if name not in placed), *_BACK, *_BASE]
    return tuple(dict.fromkeys(name for name in order if name in names))


def key_before(tree: Plain, path: TreePath) -> str | None:
    """The key behind which a new key at ``path`` is written: ``""`` for the first place, None for the last."""
    here = look_up(tree, path[:-1])
    model = entry_at(tree, path[:-1])
    if model is None or not isinstance(here, dict):
        return None
    order = writing_order(model)
    if path[-1] not in order:
        return None
    rank = {name: number for number, name in enumerate(order)}
    own = rank[str(path[-1])]
    behind = [name for name in here if rank.get(name, -1) < own]
    return behind[-1] if behind else ""


def _within(annotation: Any, step: str | int) -> Any:
    """The annotation one step further in."""
    if annotation is None:
        return None
    if isinstance(step, int):
        return annotation
    for model in _entries(annotation):
        for name, field in model.model_fields.items():
            if (field.alias or name) == step and name not in ("at", "asked"):
                return field.annotation
    named = _named(annotation)
    return named if named is not None else None


def _parts(annotation: Any) -> list[Any]:
    origin = get_origin(annotation)
    if origin is Annotated:
        return _parts(get_args(annotation)[0])
    if origin in (Union, UnionType):
        return [one for arm in get_args(annotation) for one in _parts(arm)]
    if origin is tuple:
        return [one for arm in get_args(annotation) if arm is not ... for one in _parts(arm)]
    return [annotation]


def _entries(annotation: Any) -> list[type[Entry]]:
    return [one for one in _parts(annotation) if isinstance(one, type) and issubclass(one, Entry)]


def _named(annotation: Any) -> Any:
    """What stands under names of the shop's own."""
    for one in _parts(annotation):
        if get_origin(one) is not None and isinstance(get_origin(one), type) and issubclass(get_origin(one), Mapping):
            return get_args(one)[1]
    return None
