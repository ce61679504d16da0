"""The Jinja environment in which pages are made from the parts in ``components.j2``."""

from collections.abc import Iterable
from itertools import groupby
from operator import attrgetter
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from site_builder.handbook.prose_html import media, on_page
from site_builder.views.anchors import token

THEME = Path(__file__).parent


def groups(items: Iterable[Any], name: str) -> list[tuple[Any, list[Any]]]:
    """Neighbours that agree in an attribute, together, in the order in which they come."""
    return [(value, list(found)) for value, found in groupby(items, attrgetter(name))]


def environment(*folders: Path) -> Environment:
    """An environment that escapes everything not marked safe, prints prose for the page that is being made, and
    stumbles over every missing name.

    ``folders`` hold the page makers' own templates; ``{% import "components.j2" as b %}`` works in all of
    them. Import without context: then Jinja keeps the macros and does not build them anew for each page.
    """
    env = Environment(
        loader=FileSystemLoader([*folders, THEME]),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    env.finalize = on_page
    env.globals["media"] = media
    env.filters["token"] = token
    env.filters["groups"] = groups
    return env
