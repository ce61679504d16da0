"""The MkDocs plugin: an ordinary one. Hooks only; the work is done by the modules they call."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Literal, cast

from jinja2 import Environment
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin, CombinedEvent, event_priority, get_plugin_logger
from mkdocs.structure.files import File, Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page as MkDocsPage
from mkdocs.utils.templates import TemplateContext

from site_builder.handbook import binding, offline, theme
from site_builder.handbook.config import HandbookConfig
from site_builder.handbook.gate import gated
from site_builder.handbook.going_out import stay_home
from site_builder.handbook.neighbours import Neighbour
from site_builder.handbook.publishing.mark import write_mark
from site_builder.handbook.publishing.place import Refused, place_for
from site_builder.handbook.stories import StoryMarkdown, story_head

log = get_plugin_logger(__name__)


class HandbookPlugin(BasePlugin[HandbookConfig]):  # type: ignore[no-untyped-call]  # as above
    """Notebook in, pages out, at every build and at every change while serving."""

    def __init__(self) -> None:
        self.bound: binding.BuildResult | None = None
        self.progress: Callable[[float], None] = lambda _done: None
        self._pages = 0
        self._stories = StoryMarkdown()
        self._told: dict[str, tuple[str, str]] = {}
        """Of each story its address, title and text, for the finder."""
        self.placed = False
        """Whether somebody else sees to it that nothing is lost where the handbook goes."""
        self.withheld: frozenset[str] = frozenset()
        """Recordings, by their path in the notebook, that stay out of this handbook."""

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """MkDocs keeps this instance, and with it the pages made so far, while serving from a folder of its own."""
        self.placed |= command == "serve"

    @event_priority(50)
    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Early, so that other plugins find our settings in place."""
        root = Path(config.docs_dir).parent
        if not self.placed:
            config.site_dir = str(_place(config, root))
        theme.wire(config)
        config.use_directory_urls = False
        # last, so that what it takes out stays out; MkDocs means names, Markdown takes the thing itself as well
        config.markdown_extensions = [*config.markdown_extensions, cast(str, self._stories)]
        if not config.site_url:
            config.theme.static_templates.discard("sitemap.xml")  # it could name no address
        for folder in ("skills", "tools"):
            path = str(root / folder)
            if path not in config.watch:
                config.watch.append(path)
        self.progress(0.02)
        self._pages = 0
        self._told = {}
        home = Path(config.config_file_path or "mkdocs.yml").parent
        self.bound = binding.bind(root, self.config, home, self.bound, self.withheld)
        self.progress(0.4)
        if self.bound.refused:
            raise PluginError(self.bound.refused)
        for line in self.bound.warnings:
            log.info(line)  # told, but nothing that `--strict` need stop for: a check has let it by
        config.site_name = self.bound.title or config.site_name or "The handbook"
        config.extra["colophon"] = self.bound.colophon
        config.extra["seal"] = self.bound.seal
        return config

    @event_priority(-50)
    def on_files(self, files: Files, config: MkDocsConfig) -> Files:
        """Late, so that what other plugins add is seen: the notebook's own files give way to pages."""
        assert self.bound is not None
        home = set(stay_home(files, self.bound.book.notebook, config))
        for file in list(files):
            if offline.stays_out(file.src_uri) or file in home:
                files.remove(file)
            elif file.is_documentation_page():
                file.edit_uri = f"{Path(config.docs_dir).name}/{file.src_uri}"
        for sheet in self.bound.sheets:
            existing = files.get_file_from_path(sheet.src_uri)
            if existing is not None:  # a page the shop wrote by hand goes before a made one
                continue
            made = File.generated(config, sheet.src_uri, content=sheet.html)
            made.edit_uri = sheet.written_in or None
            binding.BookPage(sheet, made, config)
            files.append(made)
        for name, path in self.bound.assets.items():
            if files.get_file_from_path(name) is None:
                files.append(File.generated(config, name, abs_src_path=str(path)))
        if config.nav is None:
            config.nav = self.bound.nav
        return files

    @event_priority(-100)
    def on_page_markdown(self, markdown: str, page: MkDocsPage, config: MkDocsConfig, files: Files) -> str:
        """Stories of the shop may link to things of the notebook, and hold no more than its other texts do."""
        if self.bound is not None and not isinstance(page, binding.BookPage):
            page.meta = {**story_head(page.meta), "search": {"exclude": True}}  # our own finder tells of it
            self._stories.page(self.bound.book, page.file.src_uri, files)
        return markdown

    @event_priority(-100)
    def on_page_content(self, html: str, page: MkDocsPage, config: MkDocsConfig, files: Files) -> str:
        """Last of all who may change it: what a story became is looked over once more."""
        if isinstance(page, binding.BookPage):
            return html
        told = gated(html)
        self._told[page.file.dest_uri] = (str(page.title or ""), told)
        return told

    @event_priority(-10)
    def on_env(self, env: Environment, config: MkDocsConfig, files: Files) -> Environment:
        """After other plugins have added their filters."""
        theme.equip(env)
        return env

    def on_page_context(
        self, context: TemplateContext, page: MkDocsPage, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """Every page says which file of the notebook it was made from."""
        bound = self.bound
        context["shelves"] = self._shelves()  # type: ignore[typeddict-unknown-key]
        context["beside"] = None  # type: ignore[typeddict-unknown-key]
        if isinstance(page, binding.BookPage) and bound is not None:
            context["beside"] = bound.beside.get(page.sheet.src_uri)  # type: ignore[typeddict-unknown-key]
            if page.sheet.written_in:
                page.meta["written_in"] = page.sheet.written_in
        self._pages += 1
        if self.bound is not None and self._pages % 10 == 0:
            self.progress(0.4 + 0.58 * min(1.0, self._pages / max(1, len(self.bound.sheets))))
        return context

    def _shelves(self) -> list[Neighbour]:
        """Orders and stories: reachable from every page."""
        if self.bound is None:
            return []
        stories = [Neighbour(title, url) for url, (title, _) in self._told.items()]
        return [*self.bound.orders, *stories]

    @event_priority(-50)
    def _finish(self, config: MkDocsConfig) -> None:
        """The finder is told of every page."""
        assert self.bound is not None
        self.bound.finish(Path(config.site_dir), self._told)

    @event_priority(-200)
    def _mark(self, config: MkDocsConfig) -> None:
        """After every other plugin has written what it writes."""
        if not self.placed:
            write_mark(Path(config.site_dir))

    on_post_build = CombinedEvent(_finish, _mark)


def _place(config: MkDocsConfig, root: Path) -> Path:
    """Where MkDocs by itself may write. It empties that folder, so it must be ours as for every other build."""
    try:
        return place_for(Path(config.site_dir), root).target
    except Refused as problem:
        raise PluginError(str(problem)) from None
