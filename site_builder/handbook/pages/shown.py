"""Pictures of a page, each with what the part of the theme that shows it needs."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from site_builder.handbook.page_context import PageContext
from site_builder.notebook.model.picture import Picture


@dataclass(frozen=True, slots=True)
class Shown:
    """One picture for the macro `pictures` of ``things.j2``; ``kind`` as the gallery tells it."""

    kind: str
    media: Markup
    caption: Markup
    words: Markup
    file: str
    marks: tuple[tuple[float, float, Markup], ...]


def shown(context: PageContext, pictures: Iterable[Picture]) -> tuple[Shown, ...]:
    """The pictures that could be published, in order."""
    out = []
    for picture in pictures:
        media = context.picture(picture)
        if media:
            marks = tuple((mark.spot[0], mark.spot[1], context.words(mark.note)) for mark in picture.marks)
            out.append(Shown(context.kind_of(picture), media, context.words(picture.shows), context.words(picture.note),
                             str(picture.file), marks))
    return tuple(out)
