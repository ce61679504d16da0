"""A keeping from beginning to end: gathered aside, made a bag, read back from the disk, put in its place."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from importlib.metadata import version
from pathlib import Path

from site_builder.archive.bag import write_bag
from site_builder.archive.contents import Contents, gather
from site_builder.archive.first_words import first_words
from site_builder.archive.place import making


@dataclass(frozen=True, slots=True)
class Kept:
    """A finished keeping."""

    place: Path
    files: int
    size: int
    contents: Contents
    told: tuple[str, ...]


def keep(
    root: Path, asked: Path, *, today: date | None = None, with_errors: bool = False,
    step: Callable[[str], None] = lambda _what: None, tell: Callable[[str], None] = lambda _line: None,
) -> Kept:
    """Keep the notebook in ``root`` as the folder ``asked``, which must be new, empty, or a keeping of ours.

    ``step`` is told what is being done, ``tell`` what one who waits should know. Raises BuildFailed, Refused, NotKept;
    what stood in the place is then as it was.
    """
    with making(asked, root, tell) as under_way:
        contents = gather(under_way.folder, root, today, with_errors=with_errors, step=step)
        step("Writing the lists")
        write_bag(under_way.folder, _about(contents), first_words(contents, under_way.folder))
        files = [one for one in under_way.folder.rglob("*") if one.is_file()]
        size = sum(one.stat().st_size for one in files)
        step("Reading it back from the disk")
        place = under_way.finish()
    return Kept(place, len(files), size, contents, tuple(under_way.told))


def _about(contents: Contents) -> list[tuple[str, str]]:
    """What the bag says of itself (RFC 8493, section 2.2.2)."""
    nb = contents.known.site.notebook
    shop = str(nb.shop.title) if nb.shop is not None and nb.shop.title else "a workshop"
    return [
        ("Source-Organization", shop),
        ("External-Description", f"The notebook of {shop}, and what was made of it: handbook, books, plain text"),
        ("Bagging-Date", contents.known.site.analysis.today.isoformat()),
        ("Bag-Software-Agent", f"benchlore {version('benchlore')}"),
    ]
