"""A notebook opened as the settings of its handbook say, with its pictures: for faces that make no site of it."""

from __future__ import annotations

import logging
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import cast

from mkdocs.exceptions import PluginError

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine
from site_builder.handbook.binding import day_of, refusal
from site_builder.handbook.build import BuildFailed, plugin_of, settings_of
from site_builder.handbook.config import HandbookConfig
from site_builder.handbook.gallery import gallery
from site_builder.handbook.site import Site
from site_builder.handbook.undisturbed import undisturbed
from site_builder.notebook.finding import Level
from site_builder.views.notebook_view import System

SETTINGS = "mkdocs.yml"


@dataclass(frozen=True, slots=True)
class Opened:
    """The book, the language it is written in, where made things are kept, and what was told on the way."""

    site: Site
    language: str
    cache: Path
    warnings: tuple[str, ...]


def opened(
    root: Path, *, today: date | None = None, with_errors: bool = False, with_pictures: bool = True,
) -> Opened:
    """Read and check the notebook in ``root``, as of ``today`` if given; without settings it has the usual ones.

    Without ``with_pictures`` none is published: a face that has its own use for the originals need not wait.
    Raises BuildFailed where the settings cannot be used, and where the notebook has errors unless ``with_errors``.
    """
    own, language = HandbookConfig(), "en"
    if (root / SETTINGS).is_file():
        logging.getLogger("mkdocs").setLevel(logging.ERROR)
        config = settings_of(root / SETTINGS)
        own, language = plugin_of(config).config, str(config.theme.locale or "en")
    else:
        own.load_dict({})
        own.validate()
    cache = root.absolute() / own.cache
    try:
        settled = today or day_of(own.today)
    except PluginError as problem:
        raise BuildFailed(str(problem)) from None
    with undisturbed():
        found = analysis(root, settled)
        findings = tuple(examine(found))
        errors = [one for one in findings if one.level is Level.ERROR]
        if errors and not (with_errors or own.with_errors):
            raise BuildFailed(refusal(errors))
        site = Site(found, findings, cast(System, own.units))
    known = Opened(site, language, cache, ())
    return with_gallery(known) if with_pictures else known


def with_gallery(known: Opened, withheld: frozenset[str] = frozenset()) -> Opened:
    """The same with its pictures published, but for recordings that are ``withheld``, by their path in the notebook."""
    pictures, _, warnings = gallery(known.site, known.cache / "pictures", withheld)
    return replace(known, site=replace(known.site, pictures=pictures), warnings=tuple(warnings))
