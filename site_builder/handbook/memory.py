"""Pages made before, kept for the next build: a page is made anew only when something it tells of changed.

The page of a procedure depends on its own file, on the files of procedures that it names or that name it,
on the shared procedures it uses, and on everything that is no procedure (shop, tools, skills, records,
orders), on the day, the settings and the program. All of that goes into its key; nothing else may be
asked by the maker of such a page.
"""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import asdict, dataclass, field
from functools import cache, cached_property
from hashlib import blake2b
from pathlib import Path
from typing import Any

from site_builder.handbook.book import Book, Sheet
from site_builder.handbook.finder import Part
from site_builder.notebook.gather import used_procedures

PACKAGE = Path(__file__).parent.parent
_ID = re.compile(r"[a-z][a-z0-9-]*")
_FILE = "pages.json"


@dataclass
class Memory:
    """The pages of the last build, and those of this one. Without a folder nothing is remembered."""

    folder: Path | None = None
    before: dict[str, tuple[str, dict[str, Any]]] = field(default_factory=dict)
    now: dict[str, tuple[str, dict[str, Any]]] = field(default_factory=dict)
    made: int = 0
    """How many pages had to be made in this build."""

    @classmethod
    def opened(cls, folder: Path) -> Memory:
        """What the last build left; nothing, if it left nothing that can be read."""
        try:
            before = json.loads((folder / _FILE).read_text("utf-8"))
        except (OSError, ValueError):
            before = {}
        return cls(folder, before if isinstance(before, dict) else {})

    def sheet(self, name: str, key: str, make: Callable[[], Sheet]) -> Sheet:
        """The page of this name if its key is as before, else the page made now."""
        known = self.before.get(name)
        if known is not None and known[0] == key:
            self.now[name] = known
            return _sheet(known[1])
        sheet = make()
        self.made += 1
        self.now[name] = (key, asdict(sheet))
        return sheet

    def close(self) -> None:
        """Keep this build's pages for the next one."""
        if self.folder is None or (not self.made and len(self.now) == len(self.before)):
            return
        self.folder.mkdir(parents=True, exist_ok=True)
        aside = self.folder / (_FILE + ".making")
        aside.write_text(json.dumps(self.now), "utf-8")
        aside.replace(self.folder / _FILE)
        self.before, self.now, self.made = self.now, {}, 0


class Keys:
    """The key of each procedure's page."""

    def __init__(self, book: Book) -> None:
        self.book = book

    @cached_property
    def _texts(self) -> Mapping[str, bytes]:
        root = self.book.notebook.root
        return {p: (root / e.at.path).read_bytes() for p, e in self.book.notebook.procedures.items()}

    @cached_property
    def _mentions(self) -> Mapping[str, set[str]]:
        """The procedures that a procedure's file names, in whatever place."""
        ids = set(self.book.notebook.procedures)
        return {p: ids & set(_ID.findall(text.decode("utf-8", "replace"))) for p, text in self._texts.items()}

    @cached_property
    def _mentioned_by(self) -> Mapping[str, set[str]]:
        back: dict[str, set[str]] = {p: set() for p in self.book.notebook.procedures}
        for one, named in self._mentions.items():
            for other in named:
                back[other].add(one)
        return back

    @cached_property
    def _rest(self) -> bytes:
        """Everything that is no procedure: files, pictures, the day, the units, the program."""
        nb = self.book.notebook
        procedures = {e.at.path for e in nb.procedures.values()}
        digest = blake2b(digest_size=16)
        digest.update(f"{self.book.system} {self.book.survey.today}".encode())
        digest.update(_program())
        for file in _files(nb.root):
            path = file.relative_to(nb.root).as_posix()
            if path not in procedures:
                digest.update(path.encode() + b"\0" + file.read_bytes())
        for source, published in sorted(self.book.pictures.items()):
            digest.update(f"{source.name} {[f.name for f in published.files]} {published.problem}".encode())
        return digest.digest()

    def key(self, procedure: str) -> str:
        """What must be the same for the page to be the same."""
        nb = self.book.notebook
        near = {procedure} | self._mentions[procedure] | self._mentioned_by[procedure]
        near |= {str(used.procedure) for used in used_procedures(nb, nb.procedures[procedure])}
        digest = blake2b(self._rest, digest_size=16)
        for one in sorted(near):
            digest.update(one.encode() + b"\0" + nb.procedures[one].at.path.encode() + b"\0" + self._texts[one])
        digest.update(repr(self.book.errors_of([nb.procedures[procedure].at.path])).encode())
        return digest.hexdigest()


def _sheet(kept: Mapping[str, Any]) -> Sheet:
    return Sheet(**{**kept, "parts": tuple(Part(**part) for part in kept["parts"])})


def _files(root: Path) -> Iterable[Path]:
    for top in ("procedures", "skills", "tools"):
        yield from sorted(f for f in (root / top).rglob("*.yml") if f.is_file())


@cache
def _program() -> bytes:
    """The program itself: a page made by an older one is not to be trusted."""
    digest = blake2b(digest_size=16)
    for file in sorted(PACKAGE.rglob("*")):
        if file.suffix in (".py", ".j2") and file.is_file():
            digest.update(file.read_bytes())
    return digest.digest()
