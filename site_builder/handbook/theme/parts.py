"""The Jinja environment in which pages are made from the parts in ``components.j2``."""

import re
from collections.abc import Iterable
from itertools import groupby
from operator import attrgetter
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined

THEME = Path(__file__).parent


def token(value: str) -> str:
    """A word of the shop as one token for a ``data-for-…`` attribute: letters of any script, digits, hyphens.

    >>> token("Deck pattern, 2 kg")
    'deck-pattern-2-kg'
    """
    return re.sub(r"[\W_]+", "-", value.lower()).strip("-") or "none"


def groups(items: Iterable[Any], name: str) -> list[tuple[Any, list[Any]]]:
    """Neighbours that agree in an attribute, together, in the order in which they come."""
    return [(value, list(found)) for value, found in groupby(items, attrgetter(name))]


def environment(*folders: Path) -> Environment:
    """An environment that escapes everything not marked safe and stumbles over every missing name.

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
    env.filters["token"] = token
    env.filters["groups"] = groups
    return env
