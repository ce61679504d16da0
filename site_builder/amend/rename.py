"""Another id for a thing or a step, in one act: its file, its own key, and every place that names it.

The books are never touched. Where one of them names the thing, the thing keeps its earlier id under ``former``, by
which ``notebook.formers`` finds it for them.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Iterator
from functools import partial

from site_builder.amend.amendment import Amendment, Change, Plain, Renaming, TreePath, Words, plain
from site_builder.notebook.answered import renamed_in_answer
from site_builder.notebook.finding import At
from site_builder.notebook.kinds import shelves
from site_builder.notebook.model.parsed_values import ID
from site_builder.notebook.model.records import Record
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.reader import RECORDS, decode, read_bytes, read_text
from site_builder.notebook.references import LINK, References, Target
from site_builder.notebook.story_links import without_code
from site_builder.notebook.told_by import teller_of, told_by
from site_builder.notebook.tree import Map, Node, Text

_NAMES_OF = {
    "part": ("part", "product"), "material": ("material",), "tool": ("machine",),
}
"""The dimensions of variants and tables whose values are ids of such things."""
_IN_PLANS = {"procedure": ("does",), "person": ("who",), "order": ("order",)}
_TOKEN = r"(?<![\w/-]){}(?![\w-])"


class CannotRename(Exception):
    """The id cannot be given; says why in trade words."""


def rename(references: References, kind: str, id_: str, new: str, what: str = "") -> Amendment:
    """Another id for a thing: ``kind`` is the noun of its shelf.

    Raises CannotRename.
    """
    nb = references.notebook
    target = references.find(id_, (kind,))
    if target is None or target.entry is None:
        raise CannotRename("There is no such thing in the notebook.")
    if not ID.match(new):
        raise CannotRename("An id has small letters, digits and hyphens, a letter first.")
    other = references.find(new, (kind, *shelves()))
    if other is not None or new in nb.unread:
        raise CannotRename("Something else has this name already.")

    def is_it(found: Target, text: str) -> bool:
        names_a_step = "/" not in text and found.step is not None
        return (found.kind, found.id) == (kind, id_) and not names_a_step

    work = _Work(nb, what or "Another name")
    named = re.compile(_TOKEN.format(re.escape(id_)))
    work.links(references, is_it, lambda text: named.sub(new, text, count=1))
    for file in work.trees:
        work.texts(file, partial(_elsewhere, kind=kind, id_=id_, new=new, file=file))
        work.keys(file, lambda path, tree: _is_named_key(path, tree, kind), id_, new)
    if kind == "part":
        for procedure in nb.procedures.values():
            if not procedure.part and id_ in nb.parts_of(procedure):  # until now its folder said so
                work.fresh.append(Change(procedure.at.path, ("part",), None, new))
    home = target.entry.at.path
    own: TreePath
    if shelves()[kind].home:
        own = next(path for path, node in _walk(work.trees[home], ()) if path and path[-1] == id_
                   and path[:-1] in (("people",), ("parts",), ("products",)) and isinstance(node, Map | Text))
        work.rekey(home, own, new)
        own = (*own[:-1], new)
    else:
        tree = work.trees[home]
        own = ()
        work.put(home, (str(next(iter(tree))),), new)
        work.renaming = Renaming(home, f"{home.rpartition('/')[0]}/{new}.yml")
    if _in_books(nb, lambda record: any(id_ == one.split("/")[0] for one in _texts_of(record))):
        work.former(home, own, id_)
    return work.amendment()


def rename_step(references: References, procedure: str, step_id: str, new: str, what: str = "") -> Amendment:
    """Another id for a step of a procedure. Raises CannotRename."""
    nb = references.notebook
    own = nb.procedures.get(procedure)
    step = own.steps_by_id.get(step_id) if own is not None else None
    if own is None or step is None:
        raise CannotRename("There is no such step.")
    if not ID.match(new):
        raise CannotRename("An id has small letters, digits and hyphens, a letter first.")
    if new in own.steps_by_id or references.find(new, ("procedure",)) is not None:
        raise CannotRename("Something else has this name already.")

    def is_it(found: Target, text: str) -> bool:
        return found.step is step and step_id in text.split("/")

    def renamed(text: str) -> str:
        lead, _, rest = text.partition("/") if text.split("/")[0] == procedure else ("", "", text)
        inner = re.sub(_TOKEN.format(re.escape(step_id)), new, rest, count=1)
        return f"{lead}/{inner}" if lead else inner

    work = _Work(nb, what or "Another name")
    work.links(references, is_it, renamed)
    home = own.at.path
    place = next(path for path, node in _walk(work.trees[home], ())
                 if path and path[-1] == "id" and isinstance(node, Text) and step.id is not None
                 and node.at == step.id.at)
    work.put(home, place, new)
    if _in_books(nb, lambda record: any(one.split("/")[:2] == [procedure, step_id] for one in _texts_of(record))):
        work.former(home, place[:-1], step_id)
    return work.amendment()


class _Work:
    """The changes of one renaming, gathered file by file as new texts at places of the tree."""

    def __init__(self, nb: Notebook, what: str) -> None:
        self.nb = nb
        self.what = what
        self.trees: dict[str, Node] = {}
        self.new: dict[str, dict[TreePath, str]] = defaultdict(dict)
        self.new_keys: list[tuple[str, TreePath, str]] = []
        self.formers: list[tuple[str, TreePath, str]] = []
        self.renaming: Renaming | None = None
        self.fresh: list[Change] = []
        self.stories: list[Words] = []
        for path in nb.digests:
            if path.startswith(RECORDS) or path.endswith(".md"):
                continue
            data, _ = read_bytes(nb.root / path, path)
            reading = read_text(decode(data or b"", path)[0], path)
            if reading.whole and len(reading.trees) == 1:
                self.trees[path] = reading.trees[0]

    def put(self, file: str, path: TreePath, text: str) -> None:
        self.new[file][path] = text

    def rekey(self, file: str, path: TreePath, new: str) -> None:
        self.new_keys.append((file, path, new))

    def former(self, file: str, path: TreePath, id_: str) -> None:
        self.formers.append((file, path, id_))

    def texts(self, file: str, renamed: Callable[[TreePath, str], str]) -> None:
        """Every text of a file that is not renamed yet, by its place."""
        for path, node in _walk(self.trees[file], ()):
            if isinstance(node, Text) and path not in self.new[file]:
                text = renamed(path, str(node))
                if text != node:
                    self.put(file, path, text)

    def keys(self, file: str, is_name: Callable[[TreePath, Node], bool], old: str, new: str) -> None:
        """Every key that names the thing."""
        tree = self.trees[file]
        for path, _ in _walk(tree, ()):
            if path and path[-1] == old and is_name(path, tree):
                self.rekey(file, path, new)

    def links(
        self, references: References, is_it: Callable[[Target, str], bool], renamed: Callable[[str], str],
    ) -> None:
        """Every reference of the notebook that leads to the thing, in keys, in texts and in stories."""
        whole: set[At] = set()
        within: set[At] = set()
        for link in references.links:
            if link.target is None or not is_it(link.target, link.text) or link.at.path not in self.trees:
                continue
            (within if link.kinds and "word" in link.kinds else whole).add(link.at)
        for file, tree in self.trees.items():
            for path, node in _walk(tree, ()):
                if not isinstance(node, Text):
                    continue
                if node.at in whole:
                    self.put(file, path, renamed(str(node)))
                elif "[[" in node:
                    for found in reversed(list(LINK.finditer(node))):
                        if node.at_letter(found.start()) in within and \
                                _leads(references, found[1].strip(), is_it) is not False:
                            old = self.new[file].get(path, str(node))
                            self.put(file, path, old[: found.start()] + _relinked(found, renamed) + old[found.end() :])
        for story in self.nb.stories:
            for found in LINK.finditer(without_code(story.text)):
                if _leads(references, found[1].strip(), is_it):
                    self.stories.append(Words(story.path, found.start(), found[0], _relinked(found, renamed)))

    def amendment(self) -> Amendment:
        """All of it as one act; a file in which keys change is told from its top."""
        changes: list[Change] = []
        for file in {**self.new, **{one[0]: {} for one in (*self.new_keys, *self.formers)}}:
            tree = self.trees[file]
            keys = {path: new for name, path, new in self.new_keys if name == file}
            formers = {path: id_ for name, path, id_ in self.formers if name == file}
            texts = self.new.get(file, {})
            if not keys and not formers:
                changes += [Change(file, path, str(_at(tree, path)), new) for path, new in texts.items()]
                continue
            wanted = _with_formers(_rebuilt(tree, (), keys, texts), formers)
            was = plain(tree)
            assert isinstance(was, dict) and isinstance(wanted, dict)
            changes += [Change(file, (key,), was[key], wanted[key]) for key in was
                        if key in wanted and was[key] != wanted[key]]
            names = list(wanted)
            changes += [Change(file, (key,), None, wanted[key], names[number - 1])
                        for number, key in enumerate(names) if key not in was]
        renamings = (self.renaming,) if self.renaming is not None else ()
        return Amendment(self.what, (*changes, *self.fresh), renamings, tuple(self.stories))


def _leads(references: References, text: str, is_it: Callable[[Target, str], bool]) -> bool | None:
    """Whether a link in a text leads to the thing; None where that hangs on where the text stands."""
    target = references.find(text.split("/")[0])
    return None if target is None or "/" in text else is_it(target, text)


def _relinked(found: re.Match[str], renamed: Callable[[str], str]) -> str:
    start = found.start(1) - found.start()
    return found[0][:start] + renamed(found[1]) + found[0][start + len(found[1]) :]


def _walk(node: Node, path: TreePath) -> Iterator[tuple[TreePath, Node]]:
    yield path, node
    if isinstance(node, Map):
        for key, value in node.items():
            yield from _walk(value, (*path, str(key)))
    elif isinstance(node, list):
        for number, value in enumerate(node):
            yield from _walk(value, (*path, number))


def _at(node: Node, path: TreePath) -> Node:
    for step in path:
        node = node[step]  # type: ignore[index, assignment]
    return node


def _elsewhere(path: TreePath, text: str, *, kind: str, id_: str, new: str, file: str) -> str:
    """Names that are no references to the index: values of ``for``, sources, and kept plans of a season."""
    keys = [step for step in path if isinstance(step, str)]
    if text == id_ and len(keys) > 1 and keys[-2] in ("for", "chosen") and keys[-1] in _NAMES_OF.get(kind, ()):
        return new
    if text == id_ and file.startswith("procedures/seasons/") and keys[-1] in _IN_PLANS.get(kind, ()):
        return new
    if kind == "person" and keys and keys[-1] == "source" and teller_of(text)[0] == id_:
        return told_by(new, teller_of(text)[1])
    if kind == "person" and len(keys) > 1 and keys[-2] == "asked":
        return renamed_in_answer(text, id_, new)
    return text


def _is_named_key(path: TreePath, tree: Node, kind: str) -> bool:
    """Whether a key names a thing of this kind: what a part is put together of, a row of a table, a day of a plan."""
    if len(path) < 2:
        return False
    if kind in ("part", "material") and path[-2] == "of" and path[0] in ("parts", "products"):
        return True
    if kind == "procedure" and path[-2] == "latest" and str(next(iter(tree))) == "season":
        return True
    for depth in range(len(path) - 1, 0, -1):
        around = _at(tree, path[: depth - 1])
        by = around.get(Text("by")) if isinstance(around, Map) else None
        if by is not None and path[depth - 1] != "by":
            names = [str(one) for one in (by if isinstance(by, list) else [by])]
            level = len(path) - 1 - depth
            return level < len(names) and names[level] in _NAMES_OF.get(kind, ())
    return False


def _rebuilt(node: Node, path: TreePath, keys: dict[TreePath, str], texts: dict[TreePath, str]) -> Plain:
    if isinstance(node, Map):
        return {keys.get((*path, str(key)), str(key)): _rebuilt(value, (*path, str(key)), keys, texts)
                for key, value in node.items()}
    if isinstance(node, list):
        return [_rebuilt(value, (*path, number), keys, texts) for number, value in enumerate(node)]
    return texts.get(path, str(node))


def _with_formers(tree: Plain, formers: dict[TreePath, str]) -> Plain:
    for path, id_ in formers.items():
        tree = _with_former(tree, path, id_, "name" if path[:1] == ("people",) else "title")
    return tree


def _with_former(here: Plain, path: TreePath, id_: str, main: str) -> Plain:
    if path:
        if isinstance(here, dict):
            return {key: _with_former(value, path[1:], id_, main) if key == path[0] else value
                    for key, value in here.items()}
        assert isinstance(here, list)
        return [_with_former(value, path[1:], id_, main) if n == path[0] else value for n, value in enumerate(here)]
    if isinstance(here, str):  # the short form of a person or a part
        here = {main: here}
    assert isinstance(here, dict)
    old = here.get("former", [])
    listed = [*(old if isinstance(old, list) else [old]), id_]
    former: Plain = [one for one in listed if one] if len(listed) > 1 else id_
    if "former" in here:
        return {**here, "former": former}
    out: dict[str, Plain] = {}
    for number, (key, value) in enumerate(here.items()):
        out[key] = value
        if number == 0:
            out["former"] = former
    return out


def _in_books(nb: Notebook, names: Callable[[Record], bool]) -> bool:
    return any(names(record) for records in nb.books.values() for record in records)


def _texts_of(record: Record) -> Iterator[str]:
    for value in record.fields().values():
        for one in value if isinstance(value, tuple) else (value,):
            if isinstance(one, Text):
                yield str(one)
