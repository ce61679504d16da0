"""``python -m tests.benchmark.growth``: what is large in one way only, and edits at random, a row as soon as measured.

A quarter, a half and the whole of 5,000 steps, 2,000 people and 500 photos, in seconds of this process's processor;
twice as much that costs twice as much is linear. Then 500 edits at random of a notebook, after each of which the pages
kept and those made from nothing must be the same. With ``SIZE=80`` no row takes more than 80.
"""

from __future__ import annotations

import os
import random
import sys
import tempfile
import time
from dataclasses import replace
from datetime import date
from pathlib import Path

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine
from site_builder.handbook.binding import bind, made_pages
from site_builder.handbook.config import HandbookConfig
from site_builder.handbook.gallery import gallery
from site_builder.handbook.remembered import PageStore
from site_builder.handbook.site import Page, Site
from tests.benchmark.shapes import SHAPES, TODAY
from tests.handbook.edits import copy_of, edited

WHOLE = {"steps": 5000, "people": 2000, "photos": 500}
EDITS = 500
NOTEBOOK = Path(__file__).parent.parent / "notebooks" / "hand-bell"


def say(text: str) -> None:
    """Told at once, and not when all is done."""
    print(text, end="", flush=True)


def bound(root: Path) -> float:
    """Seconds of the processor for all pages of the notebook."""
    config = HandbookConfig()
    config.load_dict({"today": TODAY.isoformat()})
    config.validate()
    begun = time.process_time()
    if bind(root, config, root, None).refused:
        sys.exit(f"{root.name} was refused, so nothing was measured")
    return time.process_time() - begun


def grown(shape: str, whole: int, folder: Path) -> None:
    """One row: a quarter, a half, the whole, and what each doubling multiplied."""
    say(f"{shape:8}")
    spent = []
    for number in (whole // 4, whole // 2, whole):
        root = folder / f"{shape}-{number}"
        SHAPES[shape](root, number)
        spent.append(bound(root))
        say(f"{number:>8,} {spent[-1]:8.1f} s")
    say(f"   x {spent[1] / spent[0]:.2f}, x {spent[2] / spent[1]:.2f}\n")


def _differ(root: Path, folder: Path, pages: PageStore) -> list[str]:
    surveyed = analysis(root, date(2026, 11, 24))
    site = Site(surveyed, tuple(examine(surveyed)))
    site = replace(site, pictures=gallery(site, folder / "pictures")[0])
    kept: dict[str, Page] = {page.src_uri: page for page in made_pages(site, pages)}
    anew: dict[str, Page] = {page.src_uri: page for page in made_pages(site, None)}
    return [uri for uri in {**kept, **anew} if kept.get(uri) != anew.get(uri)]


def edits(number: int, folder: Path) -> bool:
    """One row: after how many edits a page that was kept is not what it would be if made anew."""
    chance = random.Random(20261125)
    root, pages = copy_of(NOTEBOOK, folder / "edited"), PageStore(folder / "cache")
    reused = made = stale = 0
    for turn in range(number):
        if turn % 50 == 0:  # worn out by bad edits, a notebook has no pages any more
            root = copy_of(NOTEBOOK, folder / f"edited-{turn}")
        differ = _differ(root, folder, pages)
        reused, made = reused + len(pages.now) - len(pages.made), made + len(pages.made)
        stale += bool(differ)
        if differ:
            say(f"\n  after edit {turn}: {', '.join(differ[:5])}")
        edited(chance, root)
        if turn % 5 == 4:  # another run of the program, which has nothing but what lies on the disk
            pages = PageStore(folder / "cache")
        if turn % max(1, number // 10) == 0:
            say(".")
    say(f" {number} edits at random: {reused} pages kept, {made} made, {stale} times not as made from nothing\n")
    return stale == 0 and reused > 0


def main() -> None:
    """All rows; ends badly where a kept page was wrong, or none was ever kept."""
    most = int(os.environ.get("SIZE") or max(WHOLE.values()))
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for shape, whole in WHOLE.items():
            bound_first = folder / f"first-{shape}"
            SHAPES[shape](bound_first, 2)
            bound(bound_first)  # templates are read and compiled once
            grown(shape, max(8, min(whole, most)), folder)
        say("edits   ")
        if not edits(min(EDITS, most), folder):
            sys.exit("A page that was kept is not what it would be if made from nothing.")


if __name__ == "__main__":
    main()
