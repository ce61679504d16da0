"""The picture of what is made, with its parts named at the side and leading to their pages."""

from __future__ import annotations

import re

from markupsafe import Markup

from site_builder.handbook.drawings.named_picture import Named, named_picture
from site_builder.handbook.pen import Pen
from site_builder.notebook.model.picture import Mark, Picture
from site_builder.notebook.references import LINK

_SEPARATOR = re.compile(r"^[\s,;:.–-]+")
Plate = tuple[Markup, Markup, Markup]


def plates(pen: Pen) -> tuple[list[Plate], list[Picture]]:
    """Pictures whose marks name parts, as drawings; and the others, to be shown as they are."""
    nb = pen.book.notebook
    pictures = [*(nb.shop.pictures if nb.shop is not None else ()),
                *(picture for product in nb.products.values() for picture in product.pictures)]
    drawn, rest = [], []
    for picture in pictures:
        plate = _plate(pen, picture)
        if plate is None:
            rest.append(picture)
        else:
            drawn.append(plate)
    return drawn, rest


def _plate(pen: Pen, picture: Picture) -> Plate | None:
    names = [named for mark in picture.marks if (named := _named(pen, mark)) is not None]
    published = pen.published(picture)
    if not names or len(names) < len(picture.marks) or published is None or not published.files:
        return None
    size = (published.files[-1].width or published.width, published.files[-1].height or published.height)
    if size[0] is None or size[1] is None:
        return None
    said = pen.plain(picture.shows)
    source = f"{pen.root}/{published.files[-1].name}"
    wide, tall = named_picture(source, (size[0], size[1]), names, said)
    # the drawing writes its own escaped markup
    return Markup(wide), Markup(tall), Markup("{} Touch a name to see how it is made.").format(_sentence(pen, picture))


def _named(pen: Pen, mark: Mark) -> Named | None:
    """The part a mark's note begins with as a link: ``[[foot]], cast and painted``."""
    found = LINK.match(str(mark.note or ""))
    if found is None or found[1].strip() not in pen.book.notebook.parts:
        return None
    id_ = found[1].strip()
    rest = _SEPARATOR.sub("", str(mark.note)[found.end() :])
    name = (found[2] or "").strip() or pen.title("part", id_)
    return Named(mark.spot[0], mark.spot[1], name, pen.plain(rest), pen.href("part", id_) or "")


def _sentence(pen: Pen, picture: Picture) -> Markup:
    said = pen.words(picture.shows, glossary=False)
    return said if not said or said.endswith((".", "!", "?")) else Markup("{}.").format(said)
