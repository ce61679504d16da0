"""Pages of the last build, kept for as long as everything they asked of the notebook gets the same answer.

Nobody says what a page depends on: it is recorded while the page is made (``cache.asked``), down to the bytes of
the files as they were read. In doubt a page depends on more, and is made once too often.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass, field
from functools import partial
from hashlib import blake2b
from pathlib import Path
from typing import Any, cast

from site_builder.cache import Store, program_and_libraries
from site_builder.cache.asked import EVERYTHING, Answers, Asked, Recorder
from site_builder.cache.digests import Digests, Unaskable
from site_builder.handbook.finder import Part
from site_builder.handbook.site import Page, Site
from site_builder.notebook.index import Index, Place
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.route import Route
from site_builder.pictures import PublishedFile
from site_builder.views.notebook_view import NotebookView

UNTOLD = frozenset(("noted", "place_of", "anchor", "step_name"))
"""They say of an entry what stands in it and around it, and so in the file on which the page depends anyway."""
THROUGH: frozenset[object] = frozenset((
    NotebookView.title, NotebookView.link, NotebookView.person, NotebookView.words, NotebookView.plain,
))
"""Asked a hundred times a page, each time about other words: what they ask of the notebook for it is little."""
_SMALL = ("skills/people.yml", "skills/records/")
"""Files of many things: there an entry counts by itself, and a line added at the end makes no page anew."""


@dataclass(frozen=True, slots=True)
class Kept:
    """A page, and every question with the digest of its answer."""

    page: Page
    questions: Mapping[str, str]


@dataclass
class PageStore:
    """The pages of the last build and those of this one; without a folder only for as long as we run."""

    folder: Path | None = None
    now: dict[str, Kept] = field(default_factory=dict)
    made: list[str] = field(default_factory=list)
    """The pages that had to be made in the last build."""

    def begin(self, site: Site) -> Build:
        """A build of this site: what was made last is what is remembered."""
        before, self.now, self.made = self.now, {}, []
        return Build(self, Store(self.folder, program_and_libraries()), site, before)


class Build:
    """One build; ``remember`` is for ``Site.remember``."""

    def __init__(self, pages: PageStore, store: Store, site: Site, before: Mapping[str, Kept]) -> None:
        self.pages, self.store, self.before = pages, store, before
        self.digests = digests_of(site)
        self.answers = Answers(site, self.digests)
        self.recorder = Recorder(self.digests, UNTOLD, THROUGH)
        self.asked = cast(Site, Asked(self.recorder, "", site))

    def remember(self, _site: Site, kind: str, id_: str, make: Callable[[Site], Page]) -> Page:
        """The page of this name if it still holds, else the page made now. What ``make`` is given counts too."""
        name = f"{kind}-{id_}"
        given = self._given(make)
        kept = self.before.get(name) or self._read(name)
        if kept is None or kept.questions.get("given") != given or not self._holds(kept):
            self.recorder.begin()
            page = make(self.asked)
            kept = Kept(page, {"given": given, **self.recorder.end()})
            self.pages.made.append(name)
        self.pages.now[name] = kept
        return kept.page

    def close(self) -> None:
        """Keep this build's pages for the next one. A folder that cannot be written to keeps nothing."""
        for name in self.pages.made:
            kept = self.pages.now[name]
            self.store.put(name, [asdict(kept.page), dict(kept.questions)])
        self.store.prune(self.pages.now)

    def _holds(self, kept: Kept) -> bool:
        asked = {question: answer for question, answer in kept.questions.items() if question != "given"}
        return self.answers.same(asked)

    def _given(self, make: Callable[[Site], Page]) -> str:
        if not isinstance(make, partial):
            return self.digests.everything
        try:
            return self.digests.of((make.func, make.args, make.keywords))
        except Unaskable:
            return self.digests.everything

    def _read(self, name: str) -> Kept | None:
        entry = self.store.get(name)
        if entry is None:
            return None
        try:
            page, questions = entry.note
            return Kept(_page(page), {str(question): str(answer) for question, answer in questions.items()})
        except (ValueError, TypeError, KeyError, AttributeError):
            return None


def _page(kept: Mapping[str, Any]) -> Page:
    return Page(**{**kept, "parts": tuple(Part(**part) for part in kept["parts"])})


def digests_of(site: Site) -> Digests:
    """How answers about this site are digested: an entry by the file in which it stands, as it was read."""
    read = site.notebook.digests
    known: dict[int, str] = {}

    def leaf(value: object) -> str | None:
        if isinstance(value, PublishedFile):
            return f"{value.name} {value.width} {value.height}"  # its name tells its content
        if not isinstance(value, Entry):
            return None
        found = known.get(id(value))
        if found is None:
            file = read.get(value.at.path)
            if file is None or value.at.path.startswith(_SMALL):
                file = blake2b(repr(value).encode("utf-8", "surrogatepass"), digest_size=16).hexdigest()
            found = known[id(value)] = f"{_name(value)} {file}"
        return found

    def everything() -> str:
        digest = blake2b(f"{site.analysis.today} {site.system}".encode(), digest_size=16)
        for path, one in sorted(read.items()):
            digest.update(f"{path} {one}\0".encode("utf-8", "surrogatepass"))
        for source, shown in sorted(site.pictures.items()):
            told = (shown.kind, shown.width, shown.height, shown.problem, shown.removed, [*map(leaf, shown.files)])
            digest.update(f"{source.relative_to(site.notebook.root)} {told}\0".encode("utf-8", "surrogatepass"))
        return digest.hexdigest()

    things: dict[str, object] = {}
    for places in site.analysis.index.places.values():
        for place in places:
            things[str(_name(place))], things[str(_name(place.entry))] = place, place.entry
    return Digests(leaf, _name, things, (Site, Notebook, Index, Route), "site_builder.", everything, site.notebook.root)


def _name(value: object) -> str | None:
    """By what an entry, or its place, is found again."""
    if isinstance(value, Place):
        return f"place of {_name(value.entry)}"
    if isinstance(value, Entry):
        return f"{type(value).__qualname__} {value.at.path} {value.at.line} {value.at.column}"
    return None


__all__ = ["EVERYTHING", "Build", "Kept", "PageStore"]
