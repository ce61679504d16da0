"""The book as a whole: which page tells of what, and what every page may ask."""

from __future__ import annotations

import posixpath
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

from site_builder.analysis.analysis import Analysis
from site_builder.checks.interview import interview
from site_builder.handbook.asking import AskingSheet, asking_sheets, page_of_each
from site_builder.handbook.finder import Part as FinderPart
from site_builder.notebook.consent import shown
from site_builder.notebook.finding import Finding, Level
from site_builder.notebook.kinds import shelves
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.notebook import Notebook
from site_builder.pictures import Published
from site_builder.plans.in_hand import plan_in_hand
from site_builder.views.anchors import token
from site_builder.views.notebook_view import NotebookView, System
from site_builder.views.uses import Uses

START = "index.md"
WORK = "the-work/index.md"
HANDS = "the-hands/index.md"
LINEAGE = "the-hands/who-taught-whom.md"
WITHOUT = "the-hands/without.md"
LESSONS = "the-hands/next-lessons.md"
TOOLS = "the-tools/index.md"
WHOLE = "staying-whole.md"
WHOLE_FIGURES = "staying-whole-reckoning.md"
UNWRITTEN = "still-unwritten.md"
CHANGES = "changes/index.md"
SEASON = "the-season/index.md"
WALL = "the-season/this-week.md"
WORDS = "words.md"
WRITERS = "for-writers/index.md"
NAMES = "for-writers/names-that-figures-look-for.md"
CATALOGUE = "for-writers/what-is-checked.md"
THIRTY_YEARS = "for-writers/for-thirty-years.md"
TRUST = "for-writers/how-far-to-trust-the-numbers.md"


@dataclass(frozen=True, slots=True)
class Page:
    """One page of the book, ready to be bound."""

    src_uri: str
    title: str
    html: str
    """The article; headings are ``<h1>`` and ``<h2 id=…>`` as the parts of the theme emit them."""
    told: str = ""
    """A sentence or two that the finder shows for the page."""
    parts: tuple[FinderPart, ...] = ()
    """What can be found on the page by itself."""
    written_in: str = ""
    """The file of the notebook to edit, as ``procedures/foot/true-the-sole.yml``."""
    findable: bool = True


Remember = Callable[["Site", str, str, Callable[["Site"], Page]], Page]
"""Given the site, kind and id of a page (``procedure``, ``study``) and its maker: the page of the last build, or a new
one. The maker is a ``partial`` of a function of the site; from what it is given besides, the page may read all."""


def make_anew(site: Site, _kind: str, _id: str, make: Callable[[Site], Page]) -> Page:
    """Remembers nothing."""
    return make(site)


@dataclass(frozen=True)
class Site:
    """A analysis of the notebook with its findings, addresses and published pictures."""

    analysis: Analysis
    findings: tuple[Finding, ...]
    system: System = "both"
    pictures: Mapping[Path, Published] = field(default_factory=dict)
    remembering: Remember = make_anew

    def remember(self, kind: str, id_: str, make: Callable[[Site], Page]) -> Page:
        """The page of the last build if it still holds, else the page made now."""
        return self.remembering(self, kind, id_, make)

    @property
    def notebook(self) -> Notebook:
        return self.analysis.notebook

    @cached_property
    def addresses(self) -> Mapping[tuple[str, str], str]:
        """(kind, id) to the Markdown address of the page that tells of it."""
        nb = self.notebook
        found: dict[tuple[str, str], str] = {}
        for noun, shelf in shelves().items():
            for id_, entry in nb.shelves.get(noun, {}).items() if shelf.address else ():
                folder = entry.at.path.removeprefix("procedures/").rpartition("/")[0]
                said = shelf.address.format(page=_page(id_), id=id_, folder=folder)
                found[noun, id_] = posixpath.normpath(said)
                if noun == "procedure":
                    found["reckoning", id_] = posixpath.join("the-work", folder, f"{id_}-reckoning.md")
        for id_, skill in nb.skills.items():
            if any(str(one) in nb.procedures for one in skill.covers):
                found["study", id_] = f"the-hands/study/{_page(id_)}"
            if skill.checklist:
                found["checklist", id_] = f"the-hands/sheets/{_page(id_)}"
        for id_ in nb.transcripts:
            found["telling", id_] = f"tellings/{_page(id_)}"
            if shown(nb) == "whole":
                found["whole telling", id_] = f"tellings/whole/{_page(id_)}"
        season = plan_in_hand(self.analysis)
        for id_ in dict.fromkeys(str(stint.who) for stint in season.work if stint.who) if season is not None else ():
            if id_ in nb.people:
                found["weeks", id_] = f"the-season/weeks/{_page(id_)}"
        for word in nb.words:
            found["word", word] = f"{WORDS}#{token(word)}"
        return found

    @cached_property
    def views(self) -> NotebookView:
        """What every view asks of the notebook."""
        return NotebookView(self.analysis, self.system)

    @cached_property
    def uses(self) -> Uses:
        """Who uses what."""
        return Uses(self.views)

    @property
    def titles(self) -> Mapping[tuple[str, str], str]:
        """(kind, id) to what a thing is called, set for people."""
        return self.views.titles

    @cached_property
    def errors_by_file(self) -> Mapping[str, tuple[Finding, ...]]:
        """The errors of each file, for the mark on its page."""
        found: dict[str, list[Finding]] = defaultdict(list)
        for finding in self.findings:
            if finding.level is Level.ERROR:
                found[finding.at.path].append(finding)
        return {path: tuple(list_) for path, list_ in found.items()}

    def errors_of(self, paths: Iterable[str]) -> tuple[Finding, ...]:
        """The errors of these files."""
        return tuple(f for path in dict.fromkeys(paths) for f in self.errors_by_file.get(path, ()))

    @cached_property
    def asking(self) -> tuple[AskingSheet, ...]:
        """The pages of questions for the master."""
        return asking_sheets(interview(self.analysis, self.findings), UNWRITTEN)

    @cached_property
    def question_pages(self) -> Mapping[tuple[str, int], str]:
        """(path, line) of each question to the page on which it stands."""
        return page_of_each(self.asking)

    def anchor(self, step: Step) -> str:
        """The anchor of a step on its page."""
        return self.views.anchor(step)

    def step_name(self, procedure: Procedure, step: Step) -> str:
        """``step 3`` as readers count."""
        return self.views.step_name(procedure, step)


def _page(id_: str) -> str:
    # `index` is the name of a folder's own page
    return f"{id_}-.md" if id_ == "index" else f"{id_}.md"
