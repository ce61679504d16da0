"""One YAML file into trees. Never raises for what stands in the file.

Built on the events of the C parser (PyYAML), because they carry places for free and
because this format wants less of YAML than YAML offers: no anchors, aliases, tags,
tabs or repeated keys, and every scalar as text.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any, NamedTuple

import yaml

from site_builder.notebook.finding import At, Finding, Level
from site_builder.notebook.tree import Map, Node, Seq, Text, text_at
from site_builder.notebook.yaml_traps import UNWRITTEN, explain

MAX_BYTES = 4 * 1024 * 1024
"""A file a person wrote is smaller."""

RECORDS = "skills/records/"
"""Where the books stand; each is a stream of entries."""

MAX_BOOK_BYTES = 8 * MAX_BYTES
"""A book of records of a hundred years under seal is smaller."""

MAX_DEPTH = 40
"""The format itself needs fewer than twenty levels."""

MAX_TOLD = 200
"""So many faults of one file are told at once; a file with more was not written for this notebook."""

_SAVE_AS = "Save the file as UTF-8: in most editors with “Save as”, where the encoding is chosen."

_CUT = re.compile(r"(?<=[^\s#])[ \t]+#(?=[^\s#])")
_CLAUSE = re.compile(r"(?:min|max|aim|about|over|under) [\d-]")
_CUT_FIGURE = re.compile(r"\d+ ?[^\W\d_%°].*|\d+ ?[%°].*")
_ENTRY = re.compile(r"^---(?=\s|$)", re.MULTILINE)
# YAML 1.1 ends a line at these three as well, and no editor shows them: they stand for a blank here.
_HIDDEN_BREAKS = "\x85\u2028\u2029"
_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)  # the C parser, where PyYAML was built with it
_ParseError = (yaml.YAMLError, ValueError, RecursionError)


class Reading(NamedTuple):
    """What a text holds. Where it is not ``whole``, something in it could not be read at all."""

    trees: list[Node]
    findings: list[Finding]
    whole: bool


def read_bytes(file: Path, path: str) -> tuple[bytes | None, Finding | None]:
    """The bytes of a file, or why there are none."""
    most = MAX_BOOK_BYTES if path.startswith(RECORDS) else MAX_BYTES
    try:
        if not file.is_file():
            return None, _no_file(file, path)
        with file.open("rb") as stream:
            data = stream.read(most + 1)
        if len(data) > most:
            return None, _error(
                At(path), "file-unreadable",
                f"{max(file.stat().st_size, len(data)) / 2**20:.1f} MB is too large for a notebook file.",
                "Split it, or move it out of the notebook.",
            )
        return data, None
    except OSError as problem:
        why = f"It cannot be read: {problem.strerror or type(problem).__name__}."
        return None, _error(At(path), "file-unreadable", why, "Check its permissions.")


def _no_file(file: Path, path: str) -> Finding:
    if file.is_dir():
        return _error(At(path), "file-unreadable", "This is a folder, not a file.", "Rename the folder.")
    if file.is_symlink():
        return _error(At(path), "file-unreadable", "This link leads to nothing.", "Put the file itself here.")
    return _error(At(path), "file-unreadable", "This is no ordinary file.", "Move it out of the notebook.")


def decode(data: bytes, path: str) -> tuple[str, list[Finding]]:
    """Bytes into text; what is not UTF-8 is named with its place."""
    if data[:2] in (b"\xff\xfe", b"\xfe\xff"):
        return "", [_error(At(path), "encoding-wrong", "This file is UTF-16.", _SAVE_AS)]
    try:
        return data.decode("utf-8-sig"), []
    except UnicodeDecodeError as problem:
        before = _one_line_end(bytes(problem.object[: problem.start]).decode("utf-8"))
        at = At(path, before.count("\n") + 1, len(before) - before.rfind("\n"))
        return "", [_error(at, "encoding-wrong", "This letter is not UTF-8.", _SAVE_AS)]


def read_text(text: str, path: str, *, stream: bool = False, above: int = 0) -> Reading:
    """All documents of a text as trees. ``stream`` allows several (books of records).

    A book with a torn or faulty entry is read again entry by entry, so that only this one is lost. ``above``
    lines of the file stand before the text.
    """
    text = _one_line_end(text)
    for hidden in _HIDDEN_BREAKS:
        text = text.replace(hidden, " ")
    tabs = _tabs(text, path, above)
    reading = _parse(text, path, above, tabs)
    if stream and not reading.whole:
        trees: list[Node] = []
        findings: list[Finding] = []
        starts = [0, *(found.start() for found in _ENTRY.finditer(text) if found.start())]
        line = above
        for start, end in zip(starts, [*starts[1:], len(text)], strict=True):
            entry = _parse(text[start:end], path, line, tabs)
            if entry.whole:
                trees += entry.trees
            findings += entry.findings
            line += text.count("\n", start, end)
        reading = Reading(trees, findings, False)
    elif not stream and len(reading.trees) > 1:
        reading.findings.append(
            _error(reading.trees[1].at, "yaml-broken", "A second document begins after `---`.",
                   "Give each thing a file of its own.")
        )
    return Reading(reading.trees, tabs + reading.findings, reading.whole)


def _one_line_end(text: str) -> str:
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _tabs(text: str, path: str, above: int) -> list[Finding]:
    if "\t" not in text:
        return []
    return [
        _error(At(path, number, line.index("\t") + 1), "tab-used", "A tab stands here.",
               "Use blanks: two for each step in.")
        for number, line in enumerate(text.split("\n"), above + 1) if "\t" in line
    ]


def _parse(text: str, path: str, above: int, tabs: list[Finding]) -> Reading:
    """One text below ``above`` other lines."""
    builder = _Builder(path, text, above)
    findings = builder.findings
    unwritten = UNWRITTEN.search(text)
    if unwritten is not None:
        start = unwritten.start()
        line, column = text.count("\n", 0, start), start - text.rfind("\n", 0, start)
    else:
        try:
            return Reading(builder.documents, findings, builder.run())
        except _ParseError as problem:
            mark = getattr(problem, "problem_mark", None) or getattr(problem, "context_mark", None)
            if "expected ':'" in str(getattr(problem, "problem", "")):  # the line without it, not the one below
                mark = getattr(problem, "context_mark", None) or mark
            line, column = (mark.line, mark.column + 1) if mark is not None else (0, 1)
    lines = text.split("\n")
    where, message, fix = explain(lines, min(line, len(lines) - 1), column - 1)
    at = At(path, above + where[0] + 1, where[1] + 1)
    # between braces that are never closed everything seems to be a key
    findings[:] = [f for f in findings if f.code != "brace-comma" or f.at < at]
    told = any(f.at == at for f in findings) or any(f.at.line == above + line + 1 for f in tabs)
    if not told:
        findings.append(_error(at, "yaml-broken", message, fix))
    return Reading(builder.documents if unwritten is None else [], findings, False)


class _Builder:
    """Events to trees without recursion, so that no file can be too deep for it."""

    def __init__(self, path: str, text: str, above: int) -> None:
        self.path = path
        self.text = text
        self.first = above + 1
        self.last = text.count("\n")
        self.documents: list[Node] = []
        self.findings: list[Finding] = []
        self.lines = text.split("\n") if " #" in text or "\t#" in text else []
        self.cut_lines = {number for number, line in enumerate(self.lines) if _CUT.search(line)}

    def run(self) -> bool:
        """Read the whole text; False where it gave up on the way."""
        path = self.path
        first = self.first
        cut_lines = self.cut_lines
        scalar_event, map_event, seq_event = yaml.ScalarEvent, yaml.MappingStartEvent, yaml.SequenceStartEvent
        map_end, seq_end, alias_event = yaml.MappingEndEvent, yaml.SequenceEndEvent, yaml.AliasEvent
        stack: list[Map | Seq | None] = []
        keys: list[Text | None] = []
        here: Map | Seq | None = None
        key: Text | None = None
        skipped = 0
        loader = _Loader(self.text)
        try:
            while True:
                event = loader.get_event()
                if event is None or type(event) is yaml.StreamEndEvent:
                    return True
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
                    node.line = mark.line + first
                    node.column = mark.column + 1
                    node.offset = (
                        -1 if event.end_mark.line != mark.line else 1 if event.style in ("'", '"') else 0)
                    if not node and mark.line > self.last:  # nothing behind the last `---`
                        node.line, node.column = self.last + first, len(self.text) - self.text.rfind("\n")
                    if event.anchor or event.tag:
                        self._refuse(node.at, event)
                    if not node and key is not None and self._bare(here, mark.index):
                        self._comma(key, here)
                        key = None
                        continue
                    if cut_lines and event.end_mark.line in cut_lines and not event.style:
                        self._cut(event.end_mark)
                elif kind is map_event or kind is seq_event:
                    if skipped:
                        skipped += 1
                        continue
                    mark = event.start_mark
                    at = At(path, mark.line + first, mark.column + 1)
                    if len(stack) >= MAX_DEPTH:
                        self.findings.append(_too_deep(at))
                        return False
                    if type(here) is Map and key is None:
                        self.findings.append(_no_key(at))
                        key = text_at("", at)
                        skipped = 1
                        continue
                    node = Map() if kind is map_event else Seq()
                    node.path, node.line, node.column = at
                    node.flow = bool(event.flow_style)
                    if event.anchor or event.tag:
                        self._refuse(at, event)
                elif kind is alias_event:
                    if skipped:
                        continue
                    at = At(path, event.start_mark.line + first, event.start_mark.column + 1)
                    self.findings.append(_alias(at))
                    node = text_at("*" + event.anchor, at)
                else:
                    continue
                key = self._place(here, key, node)
                if len(self.findings) > MAX_TOLD:
                    return False
                if kind is map_event or kind is seq_event:
                    stack.append(here)
                    keys.append(key)
                    here, key = node, None
        finally:
            loader.dispose()

    def _place(self, here: Map | Seq | None, key: Text | None, node: Any) -> Text | None:
        """Put a node into a mapping (as key or value) or a list; returns the key now open."""
        if here is None:
            self.documents.append(node)
            return None
        if isinstance(here, Seq):
            if here.flow and here and isinstance(node, Text) and _CUT_FIGURE.fullmatch(node):
                self._in_two(here, node)
            here.append(node)
            return None
        if key is None:
            return node  # type: ignore[no-any-return]  # only texts come here as keys
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

    def _bare(self, here: Map | Seq | None, index: int) -> bool:
        """Whether a key stands between braces without a colon: what a comma made a key of."""
        if type(here) is not Map or not here.flow:
            return False
        while index > 0 and self.text[index - 1] in " \n":
            index -= 1
        return index > 0 and self.text[index - 1] != ":"

    def _in_two(self, here: Seq, rest: Text) -> None:
        """A figure that its decimal comma cut in two between brackets: `[29,6 mm]`; the whole of it is told."""
        first = here[-1]
        line = self.text.split("\n")[rest.line - self.first]
        if isinstance(first, Text) and first.isdigit() and line[rest.column - 2 : rest.column - 1] == ",":
            self.findings.append(
                _error(first.at, "brace-comma", f"A comma inside `[ ]` ends the value, so `{first}` is cut off from "
                       f"`{rest}`.", f"Write `{first}.{rest}`.")
            )
            here.pop()

    def _comma(self, key: Text, here: Map | Seq | None) -> None:
        """A key without a value, made by a comma between braces; where it cut a value, the whole of it is told."""
        last = next(reversed(here), None) if isinstance(here, Map) else None
        cut = here[last] if isinstance(here, Map) and last is not None else None
        if isinstance(cut, Text) and isinstance(here, Map) and last is not None:
            line = self.text.split("\n")[key.line - self.first]
            decimal = cut[-1:].isdigit() and key[:1].isdigit() and line[key.column - 2 : key.column - 1] == ","
            if decimal or _CLAUSE.match(key):
                whole = f"{cut}.{key}" if decimal else f"{cut}; {key}"
                told = _comma(key, True)
                self.findings.append(_error(told.at, told.code, told.message, f"Write `{whole}`."))
                here[last] = text_at(whole, cut.at)
                return
        self.findings.append(_comma(key, bool(here)))

    def _refuse(self, at: At, event: Any) -> None:
        what = f"`&{event.anchor}` gives a name to be repeated" if event.anchor else f"`{event.tag}` is a tag"
        self.findings.append(
            _error(at, "anchor-used", f"{what}; the notebook has no such thing.",
                   "Write the value out. A text that begins with `&` or `!` needs a word in front.")
        )

    def _cut(self, end: Any) -> None:
        rest = self.lines[end.line][end.column :]
        if re.match(r"[ \t]+#\S", rest):
            lost = rest.strip()
            self.findings.append(
                Finding(
                    At(self.path, end.line + self.first, end.column + 1 + len(rest) - len(rest.lstrip())),
                    "text-cut", Level.WARNING,
                    f"Everything after ` #` is lost: `{lost[:40]}`.",
                    "Write `P80` for a grit, `No. 10-24` for a thread; a comment has a blank after the `#`.",
                )
            )


def _alias(at: At) -> Finding:
    return _error(at, "anchor-used", "A text that begins with `*` repeats something named elsewhere.",
                  "Begin with a word; for stress put the star later.")


def _comma(key: Text, after_another: bool) -> Finding:
    if not after_another:
        return _error(key.at, "brace-comma",
                      f"`{key}` stands alone between braces; a name and its value belong there.",
                      "Write `name: value`; a list stands between `[` and `]`.")
    return _error(key.at, "brace-comma",
                  f"A comma inside `{{ }}` ends the value, so `{key}` stands here as a key.",
                  "Use `;`, or give the value a line of its own.")


def _too_deep(at: At) -> Finding:
    return _error(at, "too-deep", f"More than {MAX_DEPTH} levels lie inside one another here.",
                  "Check the indentation and the brackets.")


def _no_key(at: At) -> Finding:
    return _error(at, "yaml-broken", "A text cannot begin with `[` or `{`.",
                  "Begin with a word: put one before the link.")


def _error(at: At, code: str, message: str, fix: str) -> Finding:
    return Finding(at, code, Level.ERROR, message, fix)
