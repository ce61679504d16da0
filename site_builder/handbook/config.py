"""The settings of the plugin in ``mkdocs.yml``."""

from __future__ import annotations

from datetime import date

from mkdocs.config import config_options as c
from mkdocs.config.base import Config


class HandbookConfig(Config):  # type: ignore[no-untyped-call]  # MkDocs leaves this hook untyped
    """All of them may be left out."""

    units = c.Choice(("metric", "imperial", "both"), default="both")
    """Which system the pages show; ``both`` shows the one that was written and the other beside it."""

    with_errors = c.Type(bool, default=False)
    """Build in spite of errors; the pages concerned carry a mark."""

    today = c.Optional(c.Type((str, date)))
    """The day at which the notebook is read (``2026-11-25``); the real one if left out."""

    cache = c.Type(str, default=".cache/benchlore")
    """Where finished pictures and pages are kept for the next build, seen from ``mkdocs.yml``."""
