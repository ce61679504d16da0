"""What Material ships and the handbook never uses stays out of the site; with it goes every door to the network."""

from __future__ import annotations


def stays_out(src_uri: str) -> bool:
    """Files that are not published: the notebook's YAML, its original pictures, and unused parts of the theme."""
    if src_uri.endswith((".yml", ".yaml", ".map")) or src_uri.startswith("photos/"):
        return True
    return src_uri.startswith(("assets/javascripts/", "assets/stylesheets/palette.")) or src_uri in (
        "assets/images/favicon.png", "sitemap.xml")
