"""Templates into HTML: one environment for all pages."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import Environment

from site_builder.handbook.prose_html import Addresses, turn_to
from site_builder.handbook.theme import environment

TEMPLATES = Path(__file__).parent.parent / "templates"


@cache
def render() -> Environment:
    """The environment of all page templates."""
    env = environment(TEMPLATES)
    env.auto_reload = False  # the package does not change under a running build: no look at the file for each part
    return env


def pressed(template: str, page: Addresses | None = None, **values: Any) -> str:
    """A template filled with values; ``page`` is where the prose among them is read."""
    if page is not None:
        turn_to(page)
    return render().get_template(template).render(**values)
