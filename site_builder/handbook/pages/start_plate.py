"""The picture of what is made, with its parts named at the side and leading to their pages."""

from __future__ import annotations

import re

from markupsafe import Markup

from site_builder.handbook.drawings.named_picture import Named, named_picture
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.trusted import trusted
from site_builder.notebook.model.picture import Mark, Picture
from site_builder.notebook.references import LINK
from site_builder.views.prose import Prose, say, sentence

_SEPARATOR = re.compile(r"^[\s,;:.–-]+")
Plate = tuple[Markup, Markup, Prose]


def plates(context: PageContext) -> tuple[list[Plate], list[Picture]]:
    """Pictures whose marks name parts, as drawings; and the others, to be shown as they are."""
    nb = context.book.notebook
    pictures = [*(nb.shop.pictures if nb.shop is not None else ()),
                *(picture for product in nb.products.values() for picture in product.pictures)]
    drawn, rest = [], []
    for picture in pictures:
        plate = _plate(context, picture)
        if plate is None:
            rest.append(picture)
        else:
            drawn.append(plate)
    return drawn, rest


def _plate(context: PageContext, picture: Picture) -> Plate | None:
    names = [named for mark in picture.marks if (named := _named(context, mark)) is not None]
    published = context.published(picture)
    if not names or len(names) < len(picture.marks) or published is None or not published.files:
        return None
    size = (published.files[-1].width or published.width, published.files[-1].height or published.height)
    if size[0] is None or size[1] is None:
        return None
    said = context.plain(picture.shows)
    source = f"{context.root}/{published.files[-1].name}"
    wide, tall = named_picture(source, (size[0], size[1]), names, said)
    # the drawing writes its own escaped markup
    return (
        trusted(wide),
        trusted(tall),
        say("{} Touch a name to see how it is made.", _sentence(context, picture)),
    )


def _named(context: PageContext, mark: Mark) -> Named | None:
    """The part a mark's note begins with as a link: ``[[foot]], cast and painted``."""
    found = LINK.match(str(mark.note or ""))
    if found is None or found[1].strip() not in context.book.notebook.parts:
        return None
    id_ = found[1].strip()
    rest = _SEPARATOR.sub("", str(mark.note)[found.end() :])
    name = (found[2] or "").strip() or context.title("part", id_)
    return Named(mark.spot[0], mark.spot[1], name, context.plain(rest), context.href("part", id_) or "")


def _sentence(context: PageContext, picture: Picture) -> Prose:
    return sentence(context.words(picture.shows, glossary=False))
