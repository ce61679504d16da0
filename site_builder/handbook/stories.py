"""The shop's own Markdown pages: links to things of the notebook, and pictures without their secrets."""

from __future__ import annotations

import re
from collections.abc import Iterator
from mimetypes import guess_type
from pathlib import Path

from markupsafe import escape

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pictures import Published, media_html
from site_builder.handbook.site import Site
from site_builder.notebook.references import LINK
from site_builder.notebook.story_links import IMAGE, PAGE, changed_outside_code, files_in, path_of

_APOSTROPHE = re.compile(r"(?<=\w)'(?=\w)")
_ADDRESS = re.compile(r"(<[^>]*>|\]\([^)]*\))")


def story_pictures(site: Site) -> Iterator[Path]:
    """The pictures and recordings that stories show or lead to."""
    for story in site.notebook.stories:
        for link in files_in(story):
            kind, _ = guess_type(link.path)
            if link.image or (kind or "").startswith(("image/", "audio/", "video/")):
                yield site.notebook.root / link.path


def story_markdown(site: Site, src_uri: str, markdown: str) -> str:
    """``[[id]]`` becomes a link, a picture its published form, a straight apostrophe that of print.

    A link to a picture leads to its published form too: only that one goes out.
    """
    context = PageContext(site, src_uri)

    def published(found: re.Match[str]) -> Published | None:
        one = site.pictures.get(site.notebook.root / path_of(f"procedures/{src_uri}", found["target"]))
        return one if one is not None and one.files else None

    def image(found: re.Match[str]) -> str:
        one = published(found)
        return f'<figure class="bl-photo">{media_html(one, found["words"], context.root)}</figure>' if one else found[0]

    def page(found: re.Match[str]) -> str:
        one = published(found)
        return f'<a href="{escape(f"{context.root}/{one.files[-1].name}")}">{found["words"]}</a>' if one else found[0]

    def told(prose: str) -> str:
        pieces = _ADDRESS.split(prose)
        pieces[::2] = [_APOSTROPHE.sub("’", piece) for piece in pieces[::2]]  # the odd ones are tags and addresses
        shown = PAGE.sub(page, IMAGE.sub(image, "".join(pieces)))
        return LINK.sub(lambda found: str(context.words(found[0], glossary=False)), shown)

    return changed_outside_code(markdown, told)


def is_readable(file: Path) -> bool:
    """Whether a page of the shop's own is text at all; if not, a finding says so, and the book does without it."""
    try:
        file.read_bytes().decode("utf-8-sig")
    except (OSError, UnicodeDecodeError):
        return False
    return True

