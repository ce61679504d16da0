"""The Jinja environment in which pages are made from the parts in ``components.j2``."""

from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from site_builder.handbook.prose_html import media, on_page
from site_builder.views.anchors import token

THEME = Path(__file__).parent


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
    return env
