"""Pages made with the components of the e-book: what stands in which order, the templates of the handbook say."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import cache
from pathlib import Path

from jinja2 import Environment
from markupsafe import Markup

from site_builder.handbook.pages.render import TEMPLATES as PAGES
from site_builder.handbook.pages.render import pressing
from site_builder.handbook.prose_html import Media
from site_builder.handbook.prose_html import media as on_its_page
from site_builder.handbook.theme import OVERRIDES, environment
from site_builder.handbook.trusted import trusted
from site_builder.views.blocks import PictureMark, Shot

TEMPLATES = Path(__file__).parent / "templates"
_SIZE = re.compile(r' width="(\d+)" height="(\d+)"')
_SOURCE = re.compile(r' src="([^"]*)"')
_WORDS = re.compile(r' alt="([^"]*)"')


@cache
def templates() -> Environment:
    """Own components and the frame of a chapter first; all else as the handbook has it."""
    env = environment(TEMPLATES, PAGES)
    env.globals["drawn"] = drawn
    env.globals["media"] = _media
    env.globals["marked"] = marked
    env.auto_reload = False
    return env


@contextmanager
def pressing_chapters() -> Iterator[None]:
    """Meanwhile the makers of pages make chapters."""
    with pressing(templates()):
        yield


def drawn(name: str, width: float, height: float) -> Markup:
    """A mark of the handbook, drawn where it stands: not every reader can fetch it from elsewhere on a page."""
    box, strokes = _marks()[name]
    return trusted(f'<svg class="bl-mark" width="{width:g}" height="{height:g}" viewBox="{box}" aria-hidden="true">'
                  f"{strokes}</svg>")


@cache
def _marks() -> dict[str, tuple[str, str]]:
    """The marks by name: their box and their strokes."""
    made = {}
    for symbol in (OVERRIDES / "partials" / "marks.html").read_text("utf-8").split("<symbol id=")[1:]:
        head, _, rest = symbol.partition(">")
        _, name, _, box, *_ = head.split('"')
        made[name] = (box, rest.partition("</symbol>")[0])
    return made


def marked(picture: Markup, marks: Sequence[PictureMark]) -> Markup:
    """A picture with its numbered marks, in one drawing, so that they stay in their places at every size."""
    size = _SIZE.search(picture)
    if not marks or size is None:
        return picture
    width, height = map(int, size.groups())
    source, words = _SOURCE.findall(picture)[0], _WORDS.findall(picture)[0]
    radius = max(width, height) / 28
    spots = Markup("").join(
        Markup('<circle cx="{x:.0f}" cy="{y:.0f}" r="{r:.0f}" fill="#fff" stroke="#000" stroke-width="{w:.0f}"/>'
               '<text x="{x:.0f}" y="{base:.0f}" text-anchor="middle" font-size="{size:.0f}" font-weight="700" '
               'fill="#000">{nth}</text>').format(x=mark.x * width, y=mark.y * height, r=radius, w=radius / 6,
                                                  base=mark.y * height + radius * .42, size=radius * 1.2, nth=nth)
        for nth, mark in enumerate(marks, 1))
    return trusted(f'<svg class="bl-marked" viewBox="0 0 {width} {height}" width="{width}" height="{height}" '
                   f'role="img" aria-label="{words}">'
                   f'<image href="{source}" width="{width}" height="{height}"/>{spots}</svg>')


def _media(shot: Shot) -> Media:
    """A film is too large for a book that is sent from phone to phone; the handbook beside it plays it."""
    found = on_its_page(shot)
    return found._replace(element=Markup("")) if found.kind == "Film" else found
