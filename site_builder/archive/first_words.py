"""`READ-ME-FIRST.txt`: what a stranger reads who finds the folder in thirty years."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined

from site_builder.archive.contents import Contents
from site_builder.handbook.seals import NAMES, last_seals
from site_builder.views.counts import number
from site_builder.views.dates import dated_day
from site_builder.views.prose import listed

_SHOWN = 40
"""So many names are listed one by one; of more the number is told, and where they stand."""


def first_words(contents: Contents, folder: Path) -> str:
    """The text, made for what really lies in ``folder``."""
    nb, analysis = contents.known.site.notebook, contents.known.site.analysis
    shop = str(nb.shop.title) if nb.shop is not None and nb.shop.title else "a workshop"
    founders = [str(one.name) for one in nb.people.values() if one.founding in ("yes", "true")]
    files = [one for one in folder.rglob("*") if one.is_file()]
    return _templates().get_template("first_words.txt.j2").render(
        shop=shop, day=dated_day(analysis.today), founders=listed(founders).plain, has_pdf=contents.has_pdf,
        products=[contents.known.site.titles["part", id_] for id_ in nb.products],
        counts=listed(_counted(len(found), one, several) for found, one, several in (
            (nb.procedures, "procedure", "procedures"), (nb.things, "tool or material", "tools and materials"),
            (nb.skills, "skill", "skills"), (nb.people, "person", "people")) if found).plain,
        files=len(files), megabytes=max(0.1, round(sum(one.stat().st_size for one in files) / 1e6, 1)),
        seals=[(NAMES[one.kind], one) for one in last_seals(analysis)],
        places=contents.out.places[:_SHOWN], more_places=max(0, len(contents.out.places) - _SHOWN),
        voices=contents.out.voices[:_SHOWN], more_voices=max(0, len(contents.out.voices) - _SHOWN),
        strange=contents.strange[:_SHOWN], lacks=contents.lacks, has_forms=any(one.made for one in contents.forms),
        unsound=len(contents.known.site.errors_by_file),
    )


def _counted(count: int, one: str, several: str) -> str:
    return f"{number(count)} {one if count == 1 else several}"


@cache
def _templates() -> Environment:
    """Plain text: nothing is escaped, and every missing name stumbles."""
    return Environment(loader=FileSystemLoader(Path(__file__).parent / "templates"), undefined=StrictUndefined,
                       trim_blocks=True, lstrip_blocks=True, keep_trailing_newline=True)
