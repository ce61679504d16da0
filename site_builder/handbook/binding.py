"""From a notebook to bound pages: loading, checking, making, and what MkDocs needs to know of each page."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cached_property
from pathlib import Path
from typing import Any, cast

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page as MkDocsPage

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine
from site_builder.checks.report import summary
from site_builder.handbook import finder
from site_builder.handbook.config import HandbookConfig
from site_builder.handbook.gallery import gallery
from site_builder.handbook.neighbours import Beside, Neighbour, beside
from site_builder.handbook.pages import MAKERS
from site_builder.handbook.remembered import PageStore
from site_builder.handbook.seals import seal_line
from site_builder.handbook.site import (
    CHANGES,
    HANDS,
    SEASON,
    START,
    TOOLS,
    UNWRITTEN,
    WHOLE,
    WORDS,
    WORK,
    WRITERS,
    Page,
    Site,
)
from site_builder.handbook.theme import outline
from site_builder.handbook.undisturbed import undisturbed
from site_builder.notebook.finding import Finding, Level
from site_builder.views.dates import dated_day
from site_builder.views.notebook_view import System

CHAPTERS = (
    ("Start here", START), ("The work", WORK), ("The hands", HANDS), ("The tools", TOOLS),
    ("Staying whole", WHOLE), ("The season", SEASON), ("Still unwritten", UNWRITTEN), ("Changes", CHANGES),
    ("Words", WORDS),
    ("For writers", WRITERS),
)
_TOLD_AT_ONCE = 20
_ORDERS = 3
"""So many orders stand in the contents."""


class BookPage(MkDocsPage):
    """A page whose article is made already; Markdown has nothing to do."""

    def __init__(self, sheet: Page, file: File, config: MkDocsConfig) -> None:
        super().__init__(sheet.title, file, config)
        self.sheet = sheet

    def read_source(self, config: MkDocsConfig) -> None:
        self.markdown = ""
        # our own records go to the finder instead
        self.meta = {"title": self.sheet.title, "search": {"exclude": True}}
        if self.sheet.told:
            self.meta["description"] = self.sheet.told

    def render(self, config: MkDocsConfig, files: Files) -> None:
        self.content = self.sheet.html
        self.toc = outline(self.sheet.html)


@dataclass(frozen=True)
class BuildResult:
    """Everything of one build."""

    book: Site
    sheets: tuple[Page, ...]
    assets: Mapping[str, Path]
    warnings: tuple[str, ...]
    refused: str
    colophon: str
    nav: list[Any] = field(default_factory=list)
    memory: PageStore = field(default_factory=PageStore)
    seal: str = ""
    """The last seal of the book of sign-offs, for every page and every printed sheet."""

    @property
    def title(self) -> str:
        """What the shop calls itself, whatever the settings say; empty where there is no shop."""
        shop = self.book.notebook.shop
        return str(shop.title) if shop is not None else ""

    @cached_property
    def beside(self) -> Mapping[str, Beside]:
        """The neighbours of each page."""
        return beside(self.sheets)

    @cached_property
    def orders(self) -> tuple[Neighbour, ...]:
        """The newest orders, for the contents of every page."""
        found = [sheet for sheet in self.sheets if sheet.src_uri.startswith("orders/")]
        return tuple(Neighbour(f"Order: {sheet.title}", sheet.src_uri.removesuffix(".md") + ".html")
                     for sheet in found[-_ORDERS:])

    def finish(self, site_dir: Path, stories: Mapping[str, tuple[str, str]]) -> None:
        """Tell the finder of every page; ``stories``: address to title and HTML of the shop's own pages."""
        room = finder.share(len(self.sheets) + len(stories))
        chapters = {uri.rpartition("/")[0]: title for title, uri in CHAPTERS if "/" in uri}
        alone = {uri: title for title, uri in CHAPTERS}
        records = [
            finder.page_record(
                sheet.src_uri.removesuffix(".md") + ".html", sheet.title, sheet.told, sheet.parts,
                alone.get(sheet.src_uri) or chapters.get(sheet.src_uri.partition("/")[0], "Orders"), room)
            for sheet in self.sheets if sheet.findable
        ]
        records += [finder.story_record(url, title, html, "Stories", room) for url, (title, html) in stories.items()]
        names = ((word, *others) for word, others in self.book.notebook.synonyms.items() if others)
        finder.write_words(site_dir, records, names)


def bind(
    root: Path, config: HandbookConfig, home: Path, before: BuildResult | None, withheld: frozenset[str] = frozenset(),
) -> BuildResult:
    """Read, check and make the pages of the notebook in ``root``.

    ``home`` is where the cache lies from; ``before`` is what was bound last while serving; ``withheld`` names
    recordings that stay out.
    """
    with undisturbed():
        return _bound(root, config, home, before, withheld)


def _bound(
    root: Path, config: HandbookConfig, home: Path, before: BuildResult | None, withheld: frozenset[str],
) -> BuildResult:
    today = day_of(config.today)
    surveyed = analysis(root, today)
    findings = tuple(examine(surveyed))
    errors = [f for f in findings if f.level is Level.ERROR]
    colophon = colophon_of(today, settled=bool(config.today))
    units = cast(System, config.units)
    book = Site(surveyed, findings, units)
    memory = before.memory if before is not None else PageStore(home / config.cache / "pages")
    if errors and not config.with_errors:
        return BuildResult(book, (), {}, (), refusal(errors), colophon, memory=memory)
    pictures, assets, warnings = gallery(book, home / config.cache / "pictures", withheld)
    book = Site(surveyed, findings, units, pictures)
    sheets = tuple(made_pages(book, None if errors else memory))
    made = {sheet.src_uri for sheet in sheets}
    nav = [{title: uri} for title, uri in CHAPTERS if uri in made]
    return BuildResult(book, sheets, assets, tuple(warnings), "", colophon, nav, memory, seal_line(surveyed))


def day_of(settled: object) -> date:
    """The day at which the settings let the notebook be read. Raises PluginError."""
    if settled is None:
        return date.today()
    try:
        return settled if isinstance(settled, date) else date.fromisoformat(str(settled))
    except ValueError:
        raise PluginError(f"`today: {settled}` in the settings is no day. Write it as 2026-11-25.") from None


def colophon_of(today: date, *, settled: bool) -> str:
    """What the foot of each page says of the day at which the notebook was read."""
    if settled:
        return f"The notebook is read as it stood on {dated_day(today)}: what is due is reckoned for that day."
    return f"Made from the notebook of the shop on {dated_day(today)}."


def made_pages(site: Site, memory: PageStore | None) -> Iterator[Page]:
    """All pages in the order of the book; those in ``memory`` are made anew only where they would change."""
    build = memory.begin(site) if memory is not None else None
    if build is not None:
        site = replace(site, remembering=build.remember)
    for maker in MAKERS:
        yield from maker(site)
    if build is not None:
        build.close()


def refusal(errors: list[Finding]) -> str:
    """Why no handbook is made: the first errors, and how to see the rest."""
    lines = [f.line() for f in errors[:_TOLD_AT_ONCE]]
    if len(errors) > _TOLD_AT_ONCE:
        lines.append(f"… and {len(errors) - _TOLD_AT_ONCE} more.")
    return "\n".join([
        "The notebook contradicts itself; no handbook is made from it.", *lines, summary(errors),
        "`benchlore check` shows each with its line; `--with-errors` builds all the same and marks the pages.",
    ])
