"""The whole notebook as one JSON file with its schema: every text as it was written, told apart by kind."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from site_builder.notebook.kinds import RECORD_KINDS, models
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.reader import read_text
from site_builder.notebook.schema import DIALECT, schema_for
from site_builder.notebook.tree import Map

SCHEMA_FILE = "notebook.schema.json"
_ABOUT = {
    "$schema": "The file that tells what may stand here: a JSON Schema.",
    "shop": "What the shop is called.",
    "day": "The day for which this was made.",
    "stories": "The pages that the shop wrote freely, in Markdown, by their paths.",
    "unread": "Files that are no notebook a program can read, as they stand.",
}
_TEXTS = ("stories", "unread")


def notebook_json(notebook: Notebook, files: Mapping[str, Path], day: str) -> str:
    """All YAML files and stories. ``files``: path in the notebook to file."""
    kinds: dict[str, dict[str, Any]] = {kind: {} for kind in (*models(), *RECORD_KINDS)}
    unread: dict[str, str] = {}
    stories: dict[str, str] = {}
    for path, file in files.items():
        if not path.endswith((".yml", ".yaml", ".md")) or "/" not in path or path.startswith("."):
            continue
        text = file.read_bytes().decode("utf-8-sig", "replace")
        if path.endswith(".md"):
            stories[path] = text
            continue
        reading = read_text(text, path)
        trees = [one for one in reading.trees if isinstance(one, Map) and one]
        kind = next(iter(trees[0]), "") if trees else ""
        if not reading.whole or kind not in kinds or len(trees) < len(reading.trees):
            unread[path] = text
        else:
            kinds[str(kind)][path] = trees if kind in RECORD_KINDS else trees[0]
    told = {
        "$schema": SCHEMA_FILE, "shop": str(notebook.shop.title) if notebook.shop is not None else "", "day": day,
        **{kind: entries for kind, entries in kinds.items() if entries}, "stories": stories, "unread": unread,
    }
    return json.dumps(told, ensure_ascii=False, indent=1) + "\n"


def notebook_schema() -> str:
    """The schema of that file; the meaning of each key stands in it."""
    parts: dict[str, Any] = {}
    properties: dict[str, Any] = {
        name: {"type": "string", "description": said} for name, said in _ABOUT.items() if name not in _TEXTS
    }
    for kind in (*models(), *RECORD_KINDS):
        own = schema_for(kind)
        parts |= own.pop("$defs")
        own.pop("$schema")
        parts[f"file of {kind}"] = own
        one: dict[str, Any] = {"$ref": f"#/$defs/file%20of%20{kind}"}
        properties[kind] = {
            "type": "object", "description": f"Files that begin with `{kind}`, by their paths.",
            "additionalProperties": {"type": "array", "items": one} if kind in RECORD_KINDS else one,
        }
    for name in _TEXTS:
        properties[name] = {"type": "object", "description": _ABOUT[name], "additionalProperties": {"type": "string"}}
    schema = {"$schema": DIALECT, "title": "A notebook as a whole", "type": "object", "properties": properties,
              "required": ["shop", "day"], "additionalProperties": False, "$defs": parts}
    return json.dumps(schema, ensure_ascii=False, indent=1) + "\n"
