"""A whole build: MkDocs runs into a folder beside the handbook, and only a good one is swapped in."""

from __future__ import annotations

import logging
import os
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from site_builder.checks.report.as_text import counted
from site_builder.notebook.finding import Level

if TYPE_CHECKING:
    from mkdocs.config.defaults import MkDocsConfig

    from site_builder.handbook.plugin import HandbookPlugin

# MkDocs is loaded only where a handbook is made: a quarter of a second that no other command need wait for.
os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")  # Material's banner is for theme authors, not for the shop


class BuildFailed(Exception):
    """No handbook was made; the message says why. The last good one is untouched."""


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
    today: date | None = None,
) -> Made:
    """Build the handbook of ``config_file``, as of ``today`` if given.

    Raises BuildFailed; never leaves a half-built folder behind.
    """
    from mkdocs.commands.build import build as mkdocs_build
    from mkdocs.exceptions import Abort, BuildError, ConfigurationError
    from mkdocs.exceptions import PluginError as MkDocsPluginError

    config = _config(config_file, into)
    site = Path(config.site_dir)
    plugin = _plugin(config)
    plugin.config.with_errors = with_errors or plugin.config.with_errors
    plugin.config.today = today or plugin.config.today
    aside = site.with_name(site.name + ".making")
    shutil.rmtree(aside, ignore_errors=True)
    config.site_dir = str(aside)
    warnings = _Listener()
    logger = logging.getLogger("mkdocs")
    logger.addHandler(warnings)
    level, handlers = logger.level, logger.propagate
    logger.propagate = False
    logger.setLevel(logging.WARNING)
    if progress is not None:
        plugin.progress = progress.tell
    try:
        config.plugins.on_startup(command="build", dirty=False)
        mkdocs_build(config)
    except (Abort, BuildError, MkDocsPluginError, ConfigurationError) as problem:
        shutil.rmtree(aside, ignore_errors=True)
        raise BuildFailed("\n".join([*warnings.lines, str(problem)])) from None
    except OSError as problem:
        shutil.rmtree(aside, ignore_errors=True)
        raise BuildFailed(f"The handbook could not be written: {problem}") from None
    finally:
        config.plugins.on_shutdown()
        logger.removeHandler(warnings)
        logger.setLevel(level)
        logger.propagate = handlers
    swap(aside, site)
    return _made(site, plugin, warnings.lines)


def swap(new: Path, place: Path) -> None:
    """Put a finished folder in its place. The old one goes only after the new one stands."""
    old = place.with_name(place.name + ".old")
    shutil.rmtree(old, ignore_errors=True)
    if place.exists():
        place.rename(old)
    try:
        new.rename(place)
    except OSError:
        if old.exists():
            old.rename(place)
        raise
    shutil.rmtree(old, ignore_errors=True)


def _config(config_file: Path, into: Path | None) -> MkDocsConfig:
    from mkdocs.config import load_config
    from mkdocs.exceptions import Abort, ConfigurationError

    options: dict[str, Any] = {} if into is None else {"site_dir": str(into)}
    try:
        return load_config(config_file=str(config_file), **options)
    except (Abort, ConfigurationError) as problem:
        raise BuildFailed(f"{config_file} cannot be used: {problem}") from None


def _plugin(config: MkDocsConfig) -> HandbookPlugin:
    from site_builder.handbook.plugin import HandbookPlugin

    for plugin in config.plugins.values():
        if isinstance(plugin, HandbookPlugin):
            return plugin
    raise BuildFailed("The plugin `benchlore` is not under `plugins:` in the settings; add it there.")


def _made(site: Path, plugin: HandbookPlugin, warnings: list[str]) -> Made:
    assert plugin.bound is not None
    findings = plugin.bound.book.findings
    pages = len(list(site.rglob("*.html")))
    size = sum(f.stat().st_size for f in site.rglob("*") if f.is_file())
    told = [
        f"{counted(pages, 'page')}, {size / 1e6:.1f} MB.",
        ", ".join(counted(sum(f.level is level for f in findings), level.value) for level in Level)
        + " in the notebook (`benchlore check` shows them).",
        *plugin.bound.warnings,
        *warnings,
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
