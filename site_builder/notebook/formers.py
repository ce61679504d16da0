"""What sealed entries of the books call by an earlier id, found under the one it has now.

A book is never rewritten. A thing that was renamed keeps its earlier ids under ``former``; entries are read as if they
named it by its present one. What is seen in the book, and what its seals are reckoned over, stays as it was written.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import Any

from site_builder.notebook.kinds import link_nouns
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.records import Record
from site_builder.notebook.reference_keys import kinds_for
from site_builder.notebook.tree import Text, text_at

Shelves = Mapping[str, Mapping[Any, Entry]]


def former_ids(shelf: Mapping[Any, Entry]) -> dict[str, list[str]]:
    """Of each earlier id that nothing on the shelf has now, the ids of the things that had it."""
    found: dict[str, list[str]] = defaultdict(list)
    for id_, entry in shelf.items():
        for former in getattr(entry, "former", ()):
            if former not in shelf:
                found[str(former)].append(str(id_))
    return found


def by_present_ids(records: Iterable[Record], shelves: Shelves) -> tuple[Record, ...]:
    """The entries, with every earlier id replaced by the present one of the one thing that had it."""
    known = {name: {old: new[0] for old, new in former_ids(shelf).items() if len(new) == 1}
             for name, shelf in shelves.items()}
    steps = {str(id_): former_steps(one) for id_, one in shelves.get("procedure", {}).items()
             if isinstance(one, Procedure)}
    steps = {id_: renamed for id_, renamed in steps.items() if renamed}
    if not steps and not any(known.values()):
        return tuple(records)
    return tuple(_present(record, known, steps, shelves) for record in records)


def former_steps(procedure: Procedure) -> dict[str, str]:
    """Of each earlier id of a step that no step has now, the present one."""
    found: dict[str, str] = {}
    for step in procedure.every_step:
        for former in step.former:
            if step.id is not None and former not in procedure.steps_by_id:
                found[str(former)] = str(step.id)
    return found


def _present(
    record: Record, known: Mapping[str, Mapping[str, str]], steps: Mapping[str, Mapping[str, str]], shelves: Shelves,
) -> Record:
    changes: dict[str, Any] = {}
    for key, value in record.fields().items():
        kinds = kinds_for(type(record), key)
        if kinds is None or not value:
            continue
        shelf = kinds[0]
        if shelf in ("path", "value"):
            new: Any = _path(value, known, steps, shelves)
        elif isinstance(value, tuple):
            new = tuple(_named(one, known.get(shelf, {})) for one in value)
        else:
            new = _named(value, known.get(shelf, {}))
        if new != value:
            changes[key] = new
    return record.with_changes(**changes) if changes else record


def _named(text: Text, known: Mapping[str, str]) -> Text:
    return text_at(known[text], text.at) if text in known else text


def _path(
    text: Text, known: Mapping[str, Mapping[str, str]], steps: Mapping[str, Mapping[str, str]], shelves: Shelves,
) -> Text:
    first, *rest = str(text).split("/")
    if not any(first in shelves.get(name, {}) for name in link_nouns()):
        first = next((known[name][first] for name in link_nouns() if first in known.get(name, {})), first)
    if rest and first in steps:
        rest[0] = steps[first].get(rest[0], rest[0])
    written = "/".join([first, *rest])
    return text if written == text else text_at(written, text.at)
