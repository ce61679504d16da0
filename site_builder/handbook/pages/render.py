"""Templates into HTML: one environment for all pages. Another face that tells the same presses them its own way."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import Environment

from site_builder.handbook.prose_html import Addresses, turn_to
from site_builder.handbook.theme import environment

TEMPLATES = Path(__file__).parent.parent / "templates"

_environment: ContextVar[Environment | None] = ContextVar("environment", default=None)


@contextmanager
def pressing(environment: Environment) -> Iterator[None]:
    """Meanwhile pages are made with the templates of another face."""
    before = _environment.set(environment)
    try:
        yield
    finally:
        _environment.reset(before)


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
    return (_environment.get() or render()).get_template(template).render(**values)
