"""JSON Schemas of the notebook, made from the model, so that editors complete and check as one types.

They check shapes, keys and words fully and values only roughly; the loader stays the judge.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from site_builder.notebook.kinds import RECORD_KINDS, models
from site_builder.notebook.model.entry import Entry

DIALECT = "https://json-schema.org/draft/2020-12/schema"
RING_NAMES = ("first day", "first month", "rarely")


def schema_names() -> tuple[str, ...]:
    """The kinds that have a schema: one for each first key."""
    return (*models(), *RECORD_KINDS)


def schema_for(kind: str) -> dict[str, Any]:
    """The schema of the file (or, for records, of one entry) that begins with ``kind``."""
    model = {**models(), **RECORD_KINDS}[kind]
    schema = model.model_json_schema(by_alias=True)
    schema.setdefault("$defs", {})
    _tell_rings(schema)
    return {"$schema": DIALECT, "title": kind, **{k: v for k, v in schema.items() if k != "title"}}


def _tell_rings(schema: dict[str, Any]) -> None:
    """Add to each key's help when a writer meets it."""
    models = {m.__name__: m for m in _all_models(Entry)}
    for name, part in (*schema["$defs"].items(), ("", schema)):
        model = models.get(name or schema.get("title", ""))
        if model is None:
            continue
        long_form = part if "properties" in part else next(
            (p for p in part.get("anyOf", ()) if "properties" in p), None)
        if long_form is None:
            continue
        for key, value in long_form["properties"].items():
            ring = ring_of(model, key)
            if ring is not None and isinstance(value, dict):
                value["description"] = f"{value.get('description', '')} ({RING_NAMES[ring]})".strip()


def ring_of(model: type[Entry], key: str) -> int | None:
    """0 for a key of the first day, 1 for the first month, 2 for the rest; None where no rings are told."""
    first, second = model.RINGS
    if not first:
        return None
    return 0 if key in first else 1 if key in second else 2


def _all_models(base: type[Entry]) -> set[type[Entry]]:
    found = {base}
    for sub in base.__subclasses__():
        found |= _all_models(sub)
    return found


FOLDER = ".schemas"
"""Where a notebook keeps its schemas; the first comment of a file leads there."""


def write_schemas(root: Path) -> None:
    """Write the schema of every kind into the notebook, for editors."""
    folder = root / FOLDER
    folder.mkdir(exist_ok=True)
    for kind in schema_names():
        (folder / f"{kind}.json").write_text(schema_text(kind), encoding="utf-8", newline="\n")


def schema_text(kind: str) -> str:
    """The schema of a kind as it stands in a file."""
    return json.dumps(schema_for(kind), ensure_ascii=False, separators=(",", ":")) + "\n"
