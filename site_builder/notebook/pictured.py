"""Every picture the shop shows, in its YAML and in its stories, with what the file's head tells."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from site_builder.notebook.finding import At
from site_builder.notebook.index import Index
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.picture_facts import PictureFacts
from site_builder.notebook.picture_paths import inside, picture_path
from site_builder.notebook.story_links import files_in, is_media


@dataclass(frozen=True, slots=True)
class Pictured:
    """A picture where it is shown. ``path`` and ``facts`` are None where there is no such file.

    A picture or recording to which a story only leads is there too, with the words that lead to it.
    ``shows`` is what is read aloud in its place; ``asked`` is true where the writer left it open.
    """

    name: str
    at: At
    about: str
    shows: str
    asked: bool
    path: Path | None
    facts: PictureFacts | None
    story: bool


def pictured(index: Index, look: Callable[[Path], PictureFacts]) -> Iterator[Pictured]:
    """All pictures in order of kinds; a file shown twice is looked into once."""
    notebook = index.notebook
    known: dict[Path, PictureFacts] = {}

    def facts_of(path: Path | None) -> PictureFacts | None:
        if path is None:
            return None
        if path not in known:
            known[path] = look(path)
        return known[path]

    for picture, place in index.of(Picture):
        path = picture_path(notebook, picture)
        yield Pictured(str(picture.file), picture.file.at, place.owner_id, str(picture.shows or ""),
                       "shows" in picture.asked, path, facts_of(path), False)
    for story in notebook.stories:
        for link in files_in(story):
            file = notebook.root / link.path
            found = file if inside(notebook.root, file) else None
            if link.image or facts_of(found if is_media(link.path) else None):
                yield Pictured(link.written, link.at, "", link.words, False, found, facts_of(found), True)
