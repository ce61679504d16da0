"""An entry as YAML text that reads back as exactly what was meant, or is not written at all."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence

from site_builder.notebook.finding import Level
from site_builder.notebook.reader import read_text
from site_builder.notebook.yaml_traps import UNWRITTEN
from site_builder.skills.seal import content_of

Value = str | Sequence[str] | Mapping[str, str]

_PLAIN = re.compile(r"[^\W_](?:[\w .,;/()+×±µ°%–'-]*[\w.)%])?")
_WITHIN_A_LIST = re.compile(r"[^\W_](?:[\w ./()+×±µ°%–-]*[\w.)%])?")
_LONG = 100


class Unwritable(ValueError):
    """The text holds something that no book holds, a control character for one."""


def entry_text(entry: Mapping[str, Value]) -> str:
    """The entry with ``---`` before it, keys in the order given. Raises Unwritable."""
    for value in entry.values():
        for text in (value,) if isinstance(value, str) else value.values() if isinstance(value, Mapping) else value:
            if UNWRITTEN.search(text):
                raise Unwritable("A character stands in it that no keyboard writes.")
    text = "---\n" + "".join(_line(key, value) for key, value in entry.items())
    reading = read_text(text, "")
    wrong = next((found for found in reading.findings if found.level is Level.ERROR), None)
    if wrong is not None:
        raise Unwritable(wrong.message)
    if len(reading.trees) != 1 or content_of(reading.trees[0]) != content_of(entry):
        raise Unwritable("It would not read back as what was meant.")
    return text


def _line(key: str, value: Value) -> str:
    if isinstance(value, str):
        return f"{key}: {_scalar(value, _PLAIN)}\n"
    if isinstance(value, Mapping):
        return f"{key}:\n" + "".join(f"  {_scalar(name, _PLAIN)}: {_scalar(one, _PLAIN)}\n"
                                     for name, one in value.items())
    row = f"{key}: [{', '.join(_scalar(one, _WITHIN_A_LIST) for one in value)}]"
    if len(row) <= _LONG:
        return row + "\n"
    return f"{key}:\n" + "".join(f"  - {_scalar(one, _PLAIN)}\n" for one in value)


def _scalar(text: str, plain: re.Pattern[str]) -> str:
    """Plain where that is safe, else in double quotes; JSON's escapes are YAML's too."""
    return text if plain.fullmatch(text) else json.dumps(text, ensure_ascii=False)
