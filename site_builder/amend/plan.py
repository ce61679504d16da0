"""An amendment as splices of bytes, read again before anybody writes them. Pure but for ``plan``, which reads files."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

import yaml

from site_builder.amend.amendment import Amendment, Change, Plain, Renaming, Words, look_up, plain, put
from site_builder.amend.fresh_file import fresh_file
from site_builder.amend.grammar import key_before
from site_builder.amend.outcome import Conflict, FileChange, Refused, Splices
from site_builder.amend.placed import Placed, Unspliceable, place, plain_of
from site_builder.amend.splices import ByteSplice, Splice, in_bytes, spliced
from site_builder.amend.splicing import splices_for
from site_builder.notebook.by_rows import spread_rows
from site_builder.notebook.files import ENDINGS, FOLDERS, NotebookFile, notebook_files
from site_builder.notebook.finding import Finding, Level
from site_builder.notebook.kinds import models
from site_builder.notebook.reader import MAX_BYTES, RECORDS, decode, read_text
from site_builder.notebook.tree import Map, Node, Text
from site_builder.notebook.validate import validate

_LEAVE = "It can only be changed in the file itself, with an editor."


class _Read(NamedTuple):
    """A file as the reader has it: its text, its tree, and the errors that stand in it."""

    text: str
    tree: Node
    errors: list[Finding]


def plan(root: Path, amendment: Amendment) -> Splices | Refused | Conflict:
    """What would be written in the notebook at ``root``; nothing is."""
    names = dict.fromkeys((*amendment.files, *(one.to for one in amendment.renamings)))
    outside = next((name for name in names if not is_ours(name)), None)
    if outside is not None:
        return Refused("This is no file of the notebook's own.", outside, 1)
    held: dict[str, bytes | None] = {}
    for name in names:
        file = root / name
        held[name] = file.read_bytes() if file.is_file() and not file.is_symlink() else None
        if held[name] is None and (file.exists() or file.is_symlink()):
            return Refused("A folder or a link stands where the file should be.", name, 1)
    return plan_bytes(held, amendment, nouns_in(root))


def is_ours(name: str) -> bool:
    """Whether an amendment may touch a file of this name: in the three folders, no book of records, no way out."""
    parts = name.split("/")
    return (parts[0] in FOLDERS and len(parts) > 1 and not name.startswith(RECORDS)
            and not any(part in ("", ".", "..") or part.startswith(".") or "\\" in part or "\0" in part
                        for part in parts)
            and name.endswith((*ENDINGS, ".md")))


def nouns_in(root: Path) -> frozenset[str]:
    """What the shop counts in: the words of its glossary."""
    for item in notebook_files(root):
        if not isinstance(item, NotebookFile) or item.path.startswith(RECORDS):
            continue
        data = item.file.read_bytes()
        if re.search(rb"^(?:\xef\xbb\xbf)?shop:", data, re.MULTILINE):
            read = _read(data, item.path, None)
            words = read.tree.get(Text("words")) if isinstance(read, _Read) and isinstance(read.tree, Map) else None
            if isinstance(words, Map):
                return frozenset(str(word).lower() for word in words)
    return frozenset()


def plan_bytes(
    held: Mapping[str, bytes | None], amendment: Amendment, nouns: frozenset[str] | None = frozenset(),
) -> Splices | Refused | Conflict:
    """The same of bytes in hand: every file that is named, by its path, or None where there is none.

    With ``nouns`` None only the tree is read again, and not what it means.
    """
    to = {one.file: one.to for one in amendment.renamings}
    taken = next((new for new in to.values() if held.get(new) is not None), None)
    if taken is not None:
        return Refused("Another thing has this name already.", taken, 1)
    files: list[FileChange] = []
    for name in amendment.files:
        changes = [one for one in amendment.changes if one.file == name]
        words = [one for one in amendment.words if one.file == name]
        found = _file(name, to.get(name, name), held.get(name), changes, words, nouns)
        if not isinstance(found, FileChange):
            return found
        files.append(found)
    return Splices(amendment, tuple(files))


def _file(
    name: str, to: str, data: bytes | None, changes: list[Change], words: list[Words], nouns: frozenset[str] | None,
) -> FileChange | Refused | Conflict:
    if changes and changes[0].path == () and changes[0].was is None:
        return _begun(name, data, changes, nouns)
    if data is None:
        return Conflict(name, (), "", None, changes[0].shall if changes else None)
    if words:
        return _story(name, to, data, words)
    if not changes:
        return FileChange(name, to, data, data, ())
    read = _read(data, name, nouns)
    if isinstance(read, Refused):
        return read
    before = plain(read.tree)
    if changes[0].path == () and changes[0].shall is None:
        if before != changes[0].was:
            return Conflict(name, (), changes[0].was, before, None)
        return FileChange(name, name, data, None, (ByteSplice(0, data, b""),))
    try:
        top = place(read.text)
    except (yaml.YAMLError, Unspliceable) as problem:
        return _refused(name, read.text, problem)
    if top is None or plain_of(top) != before:
        line = min((one.at.line for one in read.errors), default=1)
        return Refused(f"Something in this file has to be put right first. {_LEAVE}", name, line, tuple(read.errors))
    wanted = before
    for change in changes:
        stands = look_up(wanted, change.path)
        if stands != change.was:
            return Conflict(name, change.path, change.was, stands, change.shall, _line_of(read, change))
        try:
            wanted = put(wanted, _in_order(wanted, change))
        except LookupError:
            return Conflict(name, change.path, change.was, None, change.shall, _line_of(read, change))
    outcome: FileChange | Refused = Refused("", name, 1)
    for broken in (True, False):  # where a text on several lines does not fit in, it stands on one
        outcome = _spliced(_Held(name, to, data, read, top), wanted, _line_of(read, changes[0]), nouns, broken)
        if isinstance(outcome, FileChange) or outcome.findings:
            break
    return outcome


class _Held(NamedTuple):
    """A file in hand, read and placed."""

    name: str
    to: str
    data: bytes
    read: _Read
    top: Placed


def _spliced(
    held: _Held, wanted: Plain, line: int, nouns: frozenset[str] | None, broken: bool,
) -> FileChange | Refused:
    try:
        splices = in_bytes(held.data, splices_for(held.read.text, held.top, wanted, broken=broken))
        after = spliced(held.data, splices)
    except (Unspliceable, ValueError, RecursionError) as problem:
        return _refused(held.name, held.read.text, problem)
    change = FileChange(held.name, held.to, held.data, after, splices)
    return _read_again(change, held.read, wanted, line, nouns)


def _in_order(tree: Plain, change: Change) -> Change:
    """The change with the place of a new key among its neighbours."""
    if change.after is not None or change.was is not None or not change.path or isinstance(change.path[-1], int):
        return change
    return replace(change, after=key_before(tree, change.path))


def _read_again(
    change: FileChange, before: _Read, wanted: Plain, line: int, nouns: frozenset[str] | None,
) -> FileChange | Refused:
    """The change, if the same reader makes of its bytes the tree that was wanted, and finds no error more."""
    read = _read(change.after or b"", change.to, nouns)
    if isinstance(read, Refused):
        return Refused(f"This cannot be written here. {_LEAVE}", change.file, line)
    fresh = _more(read.errors, before.errors)
    if plain(read.tree) != wanted:
        return Refused(f"This cannot be written here without disturbing what stands around it. {_LEAVE}",
                       change.file, line)
    if fresh:
        return Refused(fresh[0].message, change.file, fresh[0].at.line, tuple(fresh))
    return change


def _more(after: list[Finding], before: list[Finding]) -> list[Finding]:
    """Findings that were not there before, wherever they stand now."""
    known = Counter((one.code, one.message) for one in before)
    out = []
    for one in after:
        if known[one.code, one.message] > 0:
            known[one.code, one.message] -= 1
        else:
            out.append(one)
    return out


def _begun(
    name: str, data: bytes | None, changes: list[Change], nouns: frozenset[str] | None,
) -> FileChange | Refused | Conflict:
    tree = changes[0].shall
    if data is not None:
        return Conflict(name, (), None, data.decode("utf-8", "replace"), tree)
    if not isinstance(tree, dict) or not tree or len(changes) > 1:
        return Refused("A new file begins with what it is, and is written as a whole.", name, 1)
    after = fresh_file(name, tree).encode("utf-8")
    change = FileChange(name, name, None, after, (ByteSplice(0, b"", after),))
    return _read_again(change, _Read("", Text(""), []), tree, 1, nouns)


def _story(name: str, to: str, data: bytes, words: list[Words]) -> FileChange | Refused | Conflict:
    text, found = decode(data, name)
    if found:
        return Refused(f"This story cannot be read. {_LEAVE}", name, found[0].at.line, tuple(found))
    text = text.replace("\r\n", "\n").replace("\r", "\n")
    for one in words:
        if not text.startswith(one.was, one.start):
            line = text.count("\n", 0, one.start) + 1
            return Conflict(name, (), one.was, text[one.start : one.start + len(one.was)], one.shall, line)
    splices = in_bytes(data, [Splice(one.start, one.was, one.shall) for one in words])
    return FileChange(name, to, data, spliced(data, splices), splices)


def _read(data: bytes, name: str, nouns: frozenset[str] | None) -> _Read | Refused:
    """The tree of a file and its errors; with ``nouns`` also those of what it means."""
    if len(data) > MAX_BYTES:
        return Refused("This file is too large to be written in.", name, 1)
    text, found = decode(data, name)
    if found:
        return Refused(f"This file cannot be read. {_LEAVE}", name, found[0].at.line, tuple(found))
    reading = read_text(text, name)
    errors = [one for one in reading.findings if one.level is Level.ERROR]
    if not reading.whole or len(reading.trees) != 1:
        line = errors[0].at.line if errors else 1
        return Refused(f"Something in this file has to be put right first. {_LEAVE}", name, line, tuple(errors))
    tree = reading.trees[0]
    if nouns is not None:
        errors += _meant(text, name, nouns)
    normal = text.replace("\r\n", "\n").replace("\r", "\n")
    for hidden in "\x85\u2028\u2029":
        normal = normal.replace(hidden, " ")
    return _Read(normal, tree, errors)


def _meant(text: str, name: str, nouns: frozenset[str]) -> list[Finding]:
    """Errors of what stands in the file, as the model reads it."""
    tree = read_text(text, name).trees[0]  # a tree of its own: the model takes out what does not fit
    model = models().get(next(iter(tree), "")) if isinstance(tree, Map) else None
    if model is None or not isinstance(tree, Map):
        return []
    spread_rows(tree)
    return [one for one in validate(model, tree, nouns)[1] if one.level is Level.ERROR]


def _refused(name: str, text: str, problem: Exception) -> Refused:
    if isinstance(problem, Unspliceable):
        return Refused(f"{problem.why} {_LEAVE}", name, text.count("\n", 0, problem.place) + 1)
    mark = getattr(problem, "problem_mark", None)
    return Refused(f"This cannot be written here. {_LEAVE}", name, mark.line + 1 if mark is not None else 1)


def _line_of(read: _Read, change: Change) -> int:
    """The line on which the place of a change stands, or the nearest around it that exists."""
    node: Node = read.tree
    line = 1
    for step in change.path:
        if isinstance(node, Map) and isinstance(step, str) and (key := node.key(step)) is not None:
            line, node = key.line, node[key]
        elif isinstance(node, list) and isinstance(step, int) and step < len(node):
            node = node[step]
            line = node.at.line
        else:
            break
    return line


__all__ = ["Renaming", "is_ours", "nouns_in", "plan", "plan_bytes"]
