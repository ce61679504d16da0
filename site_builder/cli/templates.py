"""The first lines of a new file: what one writes on the first day, and which question comes next."""

from __future__ import annotations

import re
from collections.abc import Sequence

from site_builder.notebook.kinds import by_key, on_shelf

KINDS_OF_TOOL = tuple(kind.key for kind in on_shelf("tool"))

_PROCEDURE = """\
because: ask
skill: ask
time: ask
"""


def text_for(
    kind: str, id_: str, title: str, *, part: str = "", steps: Sequence[str] = (), covers: Sequence[str] = ()
) -> str:
    """A new file of this kind. Nothing is invented: what is not told is written as ``ask``."""
    head = f"{_schema_line(kind)}{kind}: {id_}\ntitle: {scalar(title)}\n"
    if kind == "procedure":
        lines = "".join(f"  - do: {scalar(step)}\n" for step in steps) or "  - do: ask\n"
        return f"{head}{f'part: {part}' + chr(10) if part else ''}{_PROCEDURE}steps:\n{lines}"
    if kind == "skill":
        listed = f"[{', '.join(covers)}]" if covers else "ask"
        return f"{head}covers: {listed}\nchecklist: ask\n"
    return head + by_key()[kind].begins


def person_lines(id_: str, name: str, born: str) -> str:
    """An entry of ``skills/people.yml``."""
    return f"  {id_}:\n    name: {name}\n" + (f"    born: {born}\n" if born else "")


def scalar(text: str) -> str:
    """A text as YAML: plain where a plain text is safe, else in double quotes."""
    plain = re.fullmatch(r"[^\W\d_][^\n\r\t]*", text) and not re.search(r": |:$| #|^(ask|yes|no|true|false)$", text)
    if plain:
        return text
    return '"' + re.sub(r"[\n\r\t]+", " ", text).replace("\\", "\\\\").replace('"', '\\"') + '"'


def _schema_line(kind: str) -> str:
    up = "../.." if kind == "procedure" else ".."
    return f"# yaml-language-server: $schema={up}/.schemas/{kind}.json\n"
