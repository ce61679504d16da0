"""The mark of a page that was built in spite of errors."""

from __future__ import annotations

from collections.abc import Iterable

from site_builder.handbook.site import Site


def unsound(site: Site, paths: Iterable[str]) -> list[tuple[str, str, str]]:
    """The errors of these files as (code, sentence, place); empty for a sound page."""
    return [(f.code, f.message, f"{f.at.path}, line {f.at.line}") for f in site.errors_of(paths)]
