"""One YAML file into trees. Never raises for what stands in the file.

Built on the events of the C parser (PyYAML), because they carry places for free and
because this format wants less of YAML than YAML offers: no anchors, aliases, tags,
tabs or repeated keys, and every scalar as text.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import yaml

from site_builder.notebook.finding import At, Finding, Level
from site_builder.notebook.tree import Map, Node, Seq, Text
from site_builder.notebook.yaml_traps import explain

MAX_BYTES = 4 * 1024 * 1024
"""A file a person wrote is smaller; a book of records of 100 years is too."""

MAX_DEPTH = 40
"""The format itself needs fewer than twenty levels."""

_CUT = re.compile(r"(?<=[^\s#])[ \t]+#(?=[^\s#])")
_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)  # the C parser, where PyYAML was built with it
_ParseError = (yaml.YAMLError, ValueError, RecursionError)


def read_bytes(file: Path, path: str) -> tuple[bytes | None, Finding | None]:
    """The bytes of a file, or why there are none."""
    try:
        if not file.is_file():
            return None, _error(At(path), "file-unreadable", "This is not a file.", "Rename the folder.")
        size = file.stat().st_size
        if size > MAX_BYTES:
            return None, _error(
                At(path), "file-unreadable",
                f"{size // 1024 // 1024} MB is too large for a notebook file.",
                "Split it, or move it out of the notebook.",
            )
        return file.read_bytes(), None
    except OSError as problem:
        why = problem.strerror or type(problem).__name__
        return None, _error(At(path), "file-unreadable", f"It cannot be read: {why}.", "Check its permissions.")


def decode(data: bytes, path: str) -> tuple[str, list[Finding]]:
    """Bytes into text; what is not UTF-8 is named with its line."""
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return "", [_error(At(path), "encoding-wrong", "This file is UTF-16.", "Save it as UTF-8.")]
    try:
        return data.decode("utf-8-sig"), []
    except UnicodeDecodeError as problem:
        before = data[: problem.start]
        at = At(path, before.count(b"\n") + 1, problem.start - before.rfind(b"\n"))
        return "", [_error(at, "encoding-wrong", "This letter is not UTF-8.", "Save the file as UTF-8.")]


def read_text(text: str, path: str, *, stream: bool = False) -> tuple[list[Node], list[Finding]]:
    """All documents of a text as trees. ``stream`` allows several (books of records)."""
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    builder = _Builder(path, text)
    lines: list[str] | None = None
    findings = builder.findings
    if "\t" in text:
        lines = text.split("\n")
        for number, line in enumerate(lines, 1):
            if "\t" in line:
                at = At(path, number, line.index("\t") + 1)
                findings.append(_error(at, "tab-used", "A tab stands here.", "Use blanks: two for each step in."))
    try:
        builder.run()
    except _ParseError as problem:
        mark = getattr(problem, "problem_mark", None) or getattr(problem, "context_mark", None)
        lines = lines or text.split("\n")
        line = min(mark.line, len(lines) - 1) if mark is not None else _bad_letter(lines)
        column = mark.column if mark is not None else 0
        if not (findings and any(f.code == "tab-used" and f.at.line == line + 1 for f in findings)):
            where, message, mend = explain(lines, line, column)
            findings.append(_error(At(path, where[0] + 1, where[1] + 1), "yaml-broken", message, mend))
    if len(builder.documents) > 1 and not stream:
        second = builder.documents[1]
        findings.append(
            _error(second.at, "yaml-broken", "A second document begins after `---`.",
                   "Give each thing a file of its own.")
        )
    return builder.documents if stream else builder.documents[:1], findings


class _Builder:
    """Events to trees without recursion, so that no file can be too deep for it."""

    def __init__(self, path: str, text: str) -> None:
        self.path = path
        self.text = text
        self.documents: list[Node] = []
        self.findings: list[Finding] = []
        self.cut_lines = {text.count("\n", 0, m.start()) for m in _CUT.finditer(text)}

    def run(self) -> None:
        path = self.path
        cut_lines = self.cut_lines
        scalar_event, map_event, seq_event = yaml.ScalarEvent, yaml.MappingStartEvent, yaml.SequenceStartEvent
        map_end, seq_end, alias_event = yaml.MappingEndEvent, yaml.SequenceEndEvent, yaml.AliasEvent
        stack: list[Map | Seq] = []
        keys: list[Text | None] = []
        here: Map | Seq | None = None
        key: Text | None = None
        skipped = 0
        loader = _Loader(self.text)
        try:
            while True:
                event = loader.get_event()
                if event is None or type(event) is yaml.StreamEndEvent:
                    break
                kind = type(event)
                if kind is map_end or kind is seq_end:
                    if skipped:
                        skipped -= 1
                        continue
                    here = stack.pop()
                    key = keys.pop()
                    continue
                if kind is scalar_event:
                    if skipped:
                        continue
                    mark = event.start_mark
                    node: Any = Text(event.value)
                    node.path = path
                    node.line = mark.line + 1
                    node.column = mark.column + 1
                    node.offset = 1 if event.style in ("'", '"') else 0
                    if event.anchor or event.tag:
                        self._refuse(node.at, event)
                    if cut_lines and event.end_mark.line in cut_lines and not event.style:
                        self._cut(event.end_mark)
                elif kind is map_event or kind is seq_event:
                    if skipped or len(stack) >= MAX_DEPTH:
                        if not skipped:
                            self.findings.append(
                                _error(At(path, event.start_mark.line + 1, event.start_mark.column + 1), "too-deep",
                                       f"More than {MAX_DEPTH} levels lie inside one another here.",
                                       "Check the indentation and the brackets.")
                            )
                            # stands in for what is left out, so that a key does not lose its value
                            node = Text("")
                            node.path, node.line, node.column, node.offset = (
                                path, event.start_mark.line + 1, event.start_mark.column + 1, 0)
                            key = self._place(here, key, node)
                        skipped += 1
                        continue
                    node = Map() if kind is map_event else Seq()
                    mark = event.start_mark
                    node.path = path
                    node.line = mark.line + 1
                    node.column = mark.column + 1
                    node.flow = bool(event.flow_style)
                    if event.anchor or event.tag:
                        self._refuse(node.at, event)
                elif kind is alias_event:
                    if skipped:
                        continue
                    at = At(path, event.start_mark.line + 1, event.start_mark.column + 1)
                    self.findings.append(_alias(at))
                    node = Text("*" + event.anchor)
                    node.path, node.line, node.column = at
                    node.offset = 0
                else:
                    continue
                key = self._place(here, key, node)
                if kind is map_event or kind is seq_event:
                    stack.append(here)  # type: ignore[arg-type]
                    keys.append(key)
                    here, key = node, None
        finally:
            loader.dispose()

    def _place(self, here: Map | Seq | None, key: Text | None, node: Any) -> Text | None:
        """Put a node into a mapping (as key or value) or a list; returns the key now open."""
        if here is None:
            self.documents.append(node)
            return None
        if type(here) is Seq:
            here.append(node)
            return None
        if key is None:
            if type(node) is not Text:
                self.findings.append(
                    _error(node.at, "yaml-broken", "A text cannot begin with `[` or `{`.",
                           "Begin with a word: put one before the link.")
                )
                stand_in = Text("")
                stand_in.path, stand_in.line, stand_in.column = node.at
                stand_in.offset = 0
                return stand_in
            return node
        if key in here:
            first = here.key(key)
            line = first.line if first is not None else 0
            self.findings.append(
                _error(key.at, "key-twice", f"`{key}` stands here already, on line {line}.",
                       "Put both under one key, or take one away.")
            )
        else:
            here[key] = node
        return None

    def _refuse(self, at: At, event: Any) -> None:
        what = f"`&{event.anchor}` gives a name to be repeated" if event.anchor else f"`{event.tag}` is a tag"
        self.findings.append(
            _error(at, "anchor-used", f"{what}; the notebook has no such thing.",
                   "Write the value out. A text that begins with `&` or `!` needs a word in front.")
        )

    def _cut(self, end: Any) -> None:
        line = self.text.split("\n")[end.line]
        rest = line[end.column :]
        if re.match(r"[ \t]+#\S", rest):
            lost = rest.strip()
            self.findings.append(
                Finding(
                    At(self.path, end.line + 1, end.column + 1 + len(rest) - len(rest.lstrip())),
                    "text-cut", Level.WARNING,
                    f"Everything after ` #` is lost: `{lost[:40]}`.",
                    "Write `P80` or `number 80`; a comment has a blank after the `#`.",
                )
            )


def _alias(at: At) -> Finding:
    return _error(at, "anchor-used", "A text that begins with `*` repeats something named elsewhere.",
                  "Begin with a word; for stress put the star later.")


def _bad_letter(lines: list[str]) -> int:
    for number, line in enumerate(lines):
        if any((ord(c) < 32 and c != "\t") or 0x7F <= ord(c) < 0xA0 for c in line):
            return number
    return 0


def _error(at: At, code: str, message: str, mend: str) -> Finding:
    return Finding(at, code, Level.ERROR, message, mend)
