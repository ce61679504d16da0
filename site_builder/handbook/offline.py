"""No door to the network: what Material ships and the handbook never uses stays out of the site."""

from __future__ import annotations

import re
from pathlib import Path

_DOORS = re.compile(r"https://(?:unpkg\.com|api\.github\.com)/")
"""Servers that Material's script would ask for a polyfill, for diagrams or for facts on a repository."""


def stays_out(src_uri: str, language: str) -> bool:
    """Files that are not published: the notebook's YAML, its original pictures, and unused parts of the theme."""
    if src_uri.endswith((".yml", ".yaml", ".map")) or src_uri.startswith("photos/"):
        return True
    if "/lunr/" in src_uri:
        return not _is_language(src_uri, language)
    return src_uri.startswith("assets/stylesheets/palette.") or src_uri in ("assets/images/favicon.png", "sitemap.xml")


def _is_language(src_uri: str, language: str) -> bool:
    """The stemmer of the book's own language, if that is not English, and what it stands on."""
    if language == "en":
        return False
    return bool(re.search(rf"/lunr/(?:min/lunr\.(?:stemmer\.support|{re.escape(language)})|wordcut|tinyseg)", src_uri))


def shut_doors(site_dir: Path) -> None:
    """Take the addresses of foreign servers out of the theme's scripts; comments with licences stay."""
    for script in (site_dir / "assets" / "javascripts").rglob("*.js"):
        text = script.read_text("utf-8")
        closed = _DOORS.sub("absent/", text)
        if closed != text:
            script.write_text(closed, "utf-8")
