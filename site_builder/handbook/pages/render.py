"""Templates into HTML: one environment for all pages."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import Environment

from site_builder.handbook.pages.in_words import capital
from site_builder.handbook.theme import environment

TEMPLATES = Path(__file__).parent.parent / "templates"


@cache
def render() -> Environment:
    """The environment of all page templates."""
    env = environment(TEMPLATES)
    env.filters["capital"] = capital
    env.auto_reload = False  # the package does not change under a running build: no look at the file for each part
    return env


def pressed(template: str, **values: Any) -> str:
    """A template filled with values."""
    return render().get_template(template).render(**values)
