"""What the shop says of its archive: whether places of photos and voices of people may go into it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Literal

from site_builder.notebook.index import Index
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.shop import Shop
from site_builder.notebook.picture_paths import picture_path

What = Literal["places", "voices"]
YES = ("yes", "true")


def answer(shop: Shop | None, what: What) -> str | None:
    """`yes` or `no` as the shop wrote it; None where it has not said."""
    told = getattr(shop.archive, what) if shop is not None and shop.archive is not None else None
    return None if told is None else "yes" if told in YES else "no"


def may_keep(shop: Shop | None, what: What) -> bool:
    """Whether the shop has said so; silence is no."""
    return answer(shop, what) == "yes"


def agreed_voices(index: Index) -> Iterator[Path]:
    """The recordings of which it is written that those who are heard agree."""
    for picture, _ in index.of(Picture):
        if str(getattr(picture, "consent", None) or "") in YES:
            path = picture_path(index.notebook, picture)
            if path is not None:
                yield path
