"""A whole build: MkDocs runs into a work folder, and only a good handbook is put in its place (`publishing`)."""

from __future__ import annotations

import logging
import os
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from site_builder.checks.report.as_text import counted
from site_builder.notebook.finding import Level

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig

    from site_builder.handbook.plugin import HandbookPlugin

# MkDocs is loaded only where a handbook is made: a quarter of a second that no other command need wait for.
os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")  # Material's banner is for theme authors, not for the shop


class BuildFailed(Exception):
    """No handbook was made; the message says why. The last good one is untouched."""


class NoPlace(BuildFailed):
    """A handbook may not go where it was to go: another folder must be named."""


class Progress:
    """Told how much of a build is done, from 0 to 1."""

    def __init__(self, tell: Callable[[float], None]) -> None:
        self.tell = tell


@dataclass(frozen=True, slots=True)
class Made:
    """A finished handbook."""

    start: Path
    pages: int
    size: int
    summary: str


def build_handbook(
    config_file: Path, *, into: Path | None, with_errors: bool, progress: Progress | None = None,
    today: date | None = None, tell: Callable[[str], None] = lambda _line: None,
    withheld: frozenset[str] = frozenset(),
) -> Made:
    """Build the handbook of ``config_file``, as of ``today`` if given; ``tell`` is told what one who waits should know;
    ``withheld`` names recordings, by their path in the notebook, that stay out.

    Raises BuildFailed, NoPlace; what stood in the place of the handbook is then as it was.
    """
    from site_builder.handbook.publishing.publish import NotPlaced, Refused, publication

    config = settings_of(config_file)
    plugin = plugin_of(config)
    plugin.config.with_errors = with_errors or plugin.config.with_errors
    plugin.config.today = today or plugin.config.today
    plugin.placed = True
    plugin.withheld = withheld
    if progress is not None:
        plugin.progress = progress.tell
    asked = into if into is not None else Path(config.site_dir)
    home = Path(config.config_file_path).absolute().parent
    warnings = _Listener()
    try:
        with publication(asked, Path(config.docs_dir).parent, home / plugin.config.cache, tell) as under_way:
            config.site_dir = str(under_way.making)
            try:
                _run(config, warnings)
            except BuildFailed as problem:
                raise BuildFailed(f"{problem}\n{_what_stands(plugin, under_way.place.target)}") from None
            try:
                site = under_way.finish()
            except NotPlaced as problem:
                raise BuildFailed(f"{problem}\n{_what_stands(plugin, under_way.place.target)}") from None
    except Refused as problem:
        raise NoPlace(str(problem)) from None
    except NotPlaced as problem:
        raise BuildFailed(str(problem)) from None
    return _made(site, plugin, [*warnings.lines, *under_way.told])


def _run(config: MkDocsConfig, warnings: _Listener) -> None:
    """MkDocs, quiet but for what it warns of. Raises BuildFailed."""
    from mkdocs.commands.build import build as mkdocs_build
    from mkdocs.exceptions import Abort, BuildError, ConfigurationError
    from mkdocs.exceptions import PluginError as MkDocsPluginError

    logger = logging.getLogger("mkdocs")
    logger.addHandler(warnings)
    level, handlers = logger.level, logger.propagate
    logger.propagate = False
    logger.setLevel(logging.WARNING)
    try:
        config.plugins.on_startup(command="build", dirty=False)
        mkdocs_build(config)
    except (Abort, BuildError, MkDocsPluginError, ConfigurationError) as problem:
        raise BuildFailed("\n".join([*warnings.lines, str(problem)])) from None
    except OSError as problem:
        why = f"{problem.strerror or problem} ({problem.filename or config.site_dir})"
        raise BuildFailed(f"The handbook could not be written: {why}.") from None
    finally:
        config.plugins.on_shutdown()
        logger.removeHandler(warnings)
        logger.setLevel(level)
        logger.propagate = handlers


def _what_stands(plugin: HandbookPlugin, target: Path) -> str:
    """The last line of a build that failed: how much is wrong, and where the last good handbook lies."""
    start = target / "index.html"
    last = f"The last good one is as it was: {start}" if start.is_file() else "There is no earlier one."
    numbers = f": {_numbers(plugin)} in the notebook" if plugin.bound is not None else ""
    return f"No handbook was made{numbers}. {last}"


def _numbers(plugin: HandbookPlugin) -> str:
    assert plugin.bound is not None
    findings = plugin.bound.book.findings
    return ", ".join(counted(sum(f.level is level for f in findings), level.value) for level in Level)


def settings_of(config_file: Path) -> MkDocsConfig:
    """The settings of a handbook. Raises BuildFailed."""
    from mkdocs.config import load_config
    from mkdocs.exceptions import Abort, ConfigurationError

    try:
        return load_config(config_file=str(config_file))
    except (Abort, ConfigurationError) as problem:
        raise BuildFailed(f"{config_file} cannot be used: {problem}") from None


def plugin_of(config: MkDocsConfig) -> HandbookPlugin:
    """Our plugin among the settings. Raises BuildFailed."""
    from site_builder.handbook.plugin import HandbookPlugin

    for plugin in config.plugins.values():
        if isinstance(plugin, HandbookPlugin):
            return plugin
    raise BuildFailed("The plugin `benchlore` is not under `plugins:` in the settings; add it there.")


def _made(site: Path, plugin: HandbookPlugin, lines: list[str]) -> Made:
    assert plugin.bound is not None
    pages = len(list(site.rglob("*.html")))
    size = sum(f.stat().st_size for f in site.rglob("*") if f.is_file())
    told = [
        f"{counted(pages, 'page')}, {size / 1e6:.1f} MB.",
        f"{_numbers(plugin)} in the notebook (`benchlore check` shows them).",
        *plugin.bound.warnings,
        *lines,
    ]
    return Made(site / "index.html", pages, size, "\n".join(told))


class _Listener(logging.Handler):
    """Keeps what MkDocs warns of, each once."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.lines: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        line = record.getMessage()
        if line not in self.lines:
            self.lines.append(line)
