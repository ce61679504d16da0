"""A folder into a notebook. Always returns: what is wrong becomes findings, the rest is kept."""

from __future__ import annotations

import gc
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from hashlib import blake2b
from pathlib import Path
from typing import Any, NamedTuple

from site_builder.notebook.by_rows import spread_rows
from site_builder.notebook.files import NotebookFile, notebook_files
from site_builder.notebook.finding import At, Finding, Level
from site_builder.notebook.formers import by_present_ids
from site_builder.notebook.kinds import RECORD_KINDS, by_key, models, shelves
from site_builder.notebook.meant_kind import meant_kind
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.parsed_values import ID
from site_builder.notebook.model.people import People
from site_builder.notebook.model.records import Record
from site_builder.notebook.model.shop import Shop
from site_builder.notebook.model.telling import Telling
from site_builder.notebook.notebook import Notebook, Story
from site_builder.notebook.reader import MAX_TOLD, RECORDS, decode, read_bytes, read_text
from site_builder.notebook.telling_files import read_transcripts
from site_builder.notebook.tree import Map, Node, Text
from site_builder.notebook.validate import validate


class Loaded(NamedTuple):
    """A notebook and everything that was wrong with its files."""

    notebook: Notebook
    findings: list[Finding]


def load(root: Path) -> Loaded:
    """Read the notebook in ``root``. Never raises for what stands in it."""
    # the garbage collector would look through half a million fresh texts again and again
    collecting = gc.isenabled()
    gc.disable()
    try:
        return _Loader(root).load()
    finally:
        if collecting:
            gc.enable()


@dataclass
class _Loader:
    root: Path
    findings: list[Finding] = field(default_factory=list)
    unread: set[str] = field(default_factory=set)
    nouns: frozenset[str] = frozenset()
    digests: dict[str, str] = field(default_factory=dict)

    def load(self) -> Loaded:
        found: dict[str, dict[str, Entry]] = {noun: {} for noun in shelves()}
        books: dict[str, list[Record]] = {kind: [] for kind in RECORD_KINDS}
        shop: Shop | None = None
        people: People | None = None
        documents = list(self._documents())
        self.nouns = _nouns(tree for _, tree, _ in documents)
        for path, tree, first in documents:
            entry = self._entry(path, tree, first)
            if entry is None:
                continue
            if isinstance(entry, Record):
                books[entry.KIND].append(entry)
            elif isinstance(entry, Shop):
                shop = self._only(shop, entry, "shop")
            elif isinstance(entry, People):
                people = self._only(people, entry, "people")
            else:
                self._shelve(found, tree, entry)
        if people is not None:
            found["person"] = {str(k): v for k, v in people.people.items()}
        if shop is not None:
            found["part"] = {str(k): v for k, v in (*shop.parts.items(), *shop.products.items())}
        told = [one for one in found["telling"].values() if isinstance(one, Telling)]
        transcripts = read_transcripts(self.root, told)
        for one in transcripts.values():
            self.findings.extend(one.findings)
            self.digests[one.path] = one.digest
        notebook = Notebook(
            root=self.root, shop=shop, shelves=found,
            about_people=None if people is None else people.with_changes(people={}),
            books={kind: by_present_ids(entries, found) for kind, entries in books.items()},
            transcripts={id_: one.transcript for id_, one in transcripts.items() if one.transcript is not None},
            stories=tuple(self._stories()), unread=frozenset(self.unread), digests=self.digests,
        )
        return Loaded(notebook, sorted(set(self.findings)))

    def _documents(self) -> Iterable[tuple[str, Node, bool]]:
        """Path and tree of everything written, and whether it stands first in its file."""
        for item in notebook_files(self.root):
            if isinstance(item, Finding):
                self.findings.append(item)
                continue
            text = self._text(item)
            if text is None:
                continue
            stream = item.path.startswith(RECORDS)
            trees, found, whole = read_text(text, item.path, stream=stream)
            self._tell(found)
            if not found and all(tree == "" for tree in trees):
                self._error(At(item.path), "file-empty", "This file is empty.",
                            "Write into it, or delete it.")
                self._give_up(item.path)
                continue
            if not whole:
                self._give_up(item.path)
                if not stream:
                    continue
            for number, tree in enumerate(trees):
                if not (stream and tree == ""):  # `---` at the end of a book
                    yield item.path, tree, number == 0

    def _text(self, item: NotebookFile) -> str | None:
        data, problem = read_bytes(item.file, item.path)
        if problem is not None or data is None:
            if problem is not None:
                self.findings.append(problem)
            self._give_up(item.path)
            return None
        self.digests[item.path] = blake2b(data, digest_size=16).hexdigest()
        text, found = decode(data, item.path)
        if found:
            self.findings.extend(found)
            self._give_up(item.path)
            return None
        return text

    def _entry(self, path: str, tree: Node, is_first: bool) -> Entry | None:
        if not isinstance(tree, Map) or not tree:
            self._error(tree.at, "kind-unknown",
                        "The first line says what this is, as `procedure: grind-foot`.",
                        f"Begin with one of: {', '.join(by_key())}.")
            self._give_up(path)
            return None
        first = next(iter(tree))
        kinds: Mapping[str, type[Entry]] = RECORD_KINDS if path.startswith(RECORDS) else models()
        model = kinds.get(first)
        if model is None:
            self._error(first.at, "kind-unknown", f"`{first}` is no kind of file.",
                        meant_kind(tree, kinds, Path(path).stem))
            self._give_up(path)
            return None
        spread_rows(tree)
        entry, found = validate(model, tree, self.nouns, self.unread)
        self._tell(found)
        if entry is None:
            self._give_up(path)
        elif is_first and not isinstance(entry, Record | Shop | People):
            self._check_name(path, tree, first)
        return entry

    def _check_name(self, path: str, tree: Map, first: Text) -> None:
        id_, stem = tree[first], Path(path).stem
        if isinstance(id_, Text) and id_ != stem and ID.match(id_):
            self._error(id_.at, "id-not-file", f"The id is `{id_}`, but the file is called `{stem}`.",
                        f"Rename the file to `{id_}.yml`"
                        + (f", or write `{first}: {stem}`." if ID.match(stem) else "."))

    def _shelve(self, shelves: dict[str, dict[str, Entry]], tree: Node, entry: Entry) -> None:
        assert isinstance(tree, Map)
        first = next(iter(tree))
        shelf = by_key()[first].shelf
        id_ = tree[first]
        assert shelf is not None and isinstance(id_, Text)
        other = shelves[shelf.noun].get(id_)
        if other is not None:
            self._error(id_.at, "id-twice", f"`{id_}` stands in {other.at.path} already.",
                        "Give one of the two another name.")
        else:
            shelves[shelf.noun][str(id_)] = entry

    def _only(self, first: Any, second: Any, what: str) -> Any:
        if first is not None:
            self._error(second.at, "id-twice", f"A file with `{what}` stands in {first.at.path} already.",
                        "Put both into one file.")
            return first
        return second

    def _stories(self) -> Iterable[Story]:
        for item in notebook_files(self.root, (".md",)):
            if isinstance(item, Finding):
                self.findings.append(item)
                continue
            text = self._text(item)
            if text is not None:
                text = text.replace("\r\n", "\n").replace("\r", "\n")
                yield Story(item.path, text, _title(text, item.path))

    def _give_up(self, path: str) -> None:
        self.unread.add(Path(path).stem)

    def _tell(self, found: list[Finding]) -> None:
        """Keep what was found; of a file that is nothing but faults, enough to see that."""
        if len(found) > MAX_TOLD:
            found = sorted(found)[:MAX_TOLD]
            last = found[-1]
            more = "There are more faults in this file than can be told here."
            found[-1] = replace(last, fix=f"{last.fix} {more}")
        self.findings.extend(found)

    def _error(self, at: At, code: str, message: str, fix: str) -> None:
        self.findings.append(Finding(at, code, Level.ERROR, message, fix))


def _nouns(trees: Iterable[Node]) -> frozenset[str]:
    """What the shop counts in: the words of its glossary."""
    for tree in trees:
        if isinstance(tree, Map) and next(iter(tree), "") == "shop":
            words = tree.get(Text("words"))
            if isinstance(words, Map):
                return frozenset(str(word).lower() for word in words)
    return frozenset()


def _title(text: str, path: str) -> str:
    found = re.search(r"^title:\s*(.+)$", text, re.MULTILINE) if text.startswith("---") else None
    found = found or re.search(r"^#\s+(.+)$", text, re.MULTILINE)
    return found[1].strip() if found else Path(path).stem.replace("-", " ").capitalize()
