"""The stories of the shop as pages: by the same rules as in the handbook, without MkDocs around them."""

from __future__ import annotations

from collections.abc import Iterator
from html import escape

from markdown import Markdown
from mkdocs.utils.meta import get_data

from site_builder.handbook.gate import gated
from site_builder.handbook.site import Page, Site
from site_builder.handbook.stories import StoryMarkdown
from site_builder.notebook.notebook import Story

_EXTENSIONS = ("tables", "fenced_code", "def_list", "footnotes")


def story_pages(site: Site) -> Iterator[Page]:
    """One page a story, in the order of their names."""
    files = _Pages(site)
    for story in site.notebook.stories:
        src_uri = _address(story)
        text, _ = get_data(story.text)
        within = StoryMarkdown()
        within.page(site, src_uri, files)
        html = gated(Markdown(extensions=[*_EXTENSIONS, within]).convert(text))
        if "<h1" not in html:
            html = f"<h1>{escape(story.title)}</h1>\n{html}"
        yield Page(src_uri, story.title, html)


class _Pages:
    """All pages to which a story may lead."""

    def __init__(self, site: Site) -> None:
        self._known = {address.partition("#")[0] for address in site.addresses.values()}
        self._known |= {_address(story) for story in site.notebook.stories}

    def get_file_from_path(self, path: str) -> object | None:
        """The address, if there is such a page."""
        return path if path in self._known else None


def _address(story: Story) -> str:
    return story.path.removeprefix("procedures/")
