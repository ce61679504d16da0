"""Every picture the notebook names, published once, and what to say of those that could not be."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from site_builder.handbook.site import Site
from site_builder.handbook.stories import story_pictures
from site_builder.notebook.consent import playable, shown
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.picture_facts import PictureProblem
from site_builder.notebook.picture_paths import inside, picture_path
from site_builder.pictures import Published, publish_all

NOT_AGREED = PictureProblem("withheld", "nobody has written that those who are heard agree to being kept.")

def recordings(site: Site) -> Iterator[Path | None]:
    """The recordings that may be played and to which something leads: an entry that was told, or a whole telling."""
    notebook = site.notebook
    led_to = {one.moment.telling for one in site.analysis.told_entries if one.moment.stretch is not None}
    for id_, telling in notebook.tellings.items():
        if id_ in led_to or shown(notebook) == "whole":
            yield playable(notebook, telling)


def gallery(
    site: Site, cache: Path, withheld: frozenset[str] = frozenset(),
) -> tuple[Mapping[Path, Published], Mapping[str, Path], list[str]]:
    """Published pictures by source, the files they consist of by address, and warnings.

    ``withheld``: recordings, by their path in the notebook, that stay out of a copy which goes from hand to hand.
    """
    named = (picture_path(site.notebook, picture) for picture, _ in site.analysis.index.of(Picture))
    sources = {file for file in (*named, *story_pictures(site), *recordings(site)) if file is not None}
    found = [source for source in sorted(sources) if inside(site.notebook.root, source)]
    silent = {source for source in found if source.relative_to(site.notebook.root).as_posix() in withheld}
    published = publish_all([source for source in found if source not in silent], site.notebook.root, cache)
    published |= {source: Published("sound", problem=NOT_AGREED) for source in silent}
    assets = {file.name: file.path for one in published.values() for file in one.files}
    warnings = []
    for source, one in published.items():
        name = source.relative_to(site.notebook.root).as_posix()
        if one.problem is not None:
            warnings.append(f"{name} is not shown: {one.problem}")
        elif one.removed:
            warnings.append(f"{name} is shown without {', '.join(one.removed)}.")
    return published, assets, warnings
