"""Pages kept from the last build: after any edit the book is what it would be if all of it were made anew."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine
from site_builder.handbook.binding import made_pages
from site_builder.handbook.gallery import gallery
from site_builder.handbook.remembered import EVERYTHING, Kept, PageStore
from site_builder.handbook.site import Site, System
from site_builder.notebook.finding import Level
from site_builder.notebook.load import load
from site_builder.skills.append import append

DEMO = Path(__file__).parent.parent.parent
TODAY = date(2026, 11, 24)
EXTRA = """\
procedure: brush-foot
title: Brush the foot
part: foot
skill: deburring-by-feel
after: deburr-foot
steps:
  - id: brush
    do: Brush the dust off towards the leg, as at [[true-the-sole]].
    limits: {heat of the foot: {is: deburr-foot/heat of the foot}}
"""

Edit = Callable[[Path], None]


class Shop:
    """A copy of the demo that can be edited, with what was made of it last."""

    def __init__(self, root: Path, pictures: Path, before: dict[str, Kept]) -> None:
        self.root = root
        self.pictures = pictures
        self.memory = PageStore(now=dict(before))

    def book(self) -> Site:
        """The notebook as it stands now; it must be without errors, or nothing would be kept at all."""
        surveyed = analysis(self.root, TODAY)
        findings = tuple(examine(surveyed))
        assert [f.line() for f in findings if f.level is Level.ERROR] == []
        plain = Site(surveyed, findings)
        return replace(plain, pictures=gallery(plain, self.pictures)[0])

    def made(self) -> set[str]:
        """Build with memory and anew, compare page by page, and tell which pages memory had made."""
        book = self.book()
        kept = {sheet.src_uri: sheet for sheet in made_pages(book, self.memory)}
        anew = {sheet.src_uri: sheet for sheet in made_pages(book, None)}
        assert kept.keys() == anew.keys()
        assert [uri for uri, sheet in anew.items() if kept[uri] != sheet] == []
        return set(self.memory.made)

    def edit(self, path: str, old: str, new: str) -> None:
        file = self.root / path
        text = file.read_text("utf-8")
        assert old in text, f"{path} no longer says `{old}`"
        file.write_text(text.replace(old, new, 1), "utf-8")

    def write(self, path: str, text: str) -> None:
        (self.root / path).write_text(text, "utf-8")


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path, dict[str, Kept]]:
    """The demo made once: its copy, its pictures, its pages."""
    root = tmp_path_factory.mktemp("first")
    for folder in ("procedures", "skills", "tools"):
        shutil.copytree(DEMO / folder, root / folder)
    pictures = tmp_path_factory.mktemp("pictures")
    shop = Shop(root, pictures, {})
    made = shop.made()
    assert len(made) > 30
    return root, pictures, shop.memory.now


@pytest.fixture
def shop(first: tuple[Path, Path, dict[str, Kept]], tmp_path: Path) -> Iterator[Shop]:
    root, pictures, pages = first
    shutil.copytree(root, tmp_path / "shop")
    yield Shop(tmp_path / "shop", pictures, pages)


def test_nothing_changed_and_nothing_is_made(shop: Shop) -> None:
    assert shop.made() == set()


def test_no_page_of_work_depends_on_all_there_is(first: tuple[Path, Path, dict[str, Kept]]) -> None:
    """It would be made anew after every edit, whatever was edited."""
    assert [name for name, kept in first[2].items() if EVERYTHING in kept.questions] == []


def test_words_a_title_a_picture_a_hazard_of_shared_work_and_a_value_that_is_asked_for(shop: Shop) -> None:
    shop.edit("procedures/foot/deburr-foot.yml", "steps:\n", "steps:\n  - do: Put the apron on.\n")
    shop.edit("procedures/photos/sole-flat.svg", "</svg>", '<path d="M0 0h1"/></svg>')
    shop.edit("procedures/foot/true-the-sole.yml", "title: Grind the sole flat", "title: Bring the sole down")
    shop.edit("procedures/shared/dress-the-belt.yml", "\nsteps:\n", """
hazards:
  - hazard: a torn belt
    word: warning
    harm: The end whips out.
    avoid: Stand to the left.
steps:
""")
    shop.edit("procedures/foot/deburr-foot.yml", "room temperature: 16..28 °C", "room temperature: ask")
    assert {"procedure-deburr-foot", "study-deburring-by-feel", "procedure-true-the-sole",
            "procedure-cool-and-knock-out", "procedure-dress-the-belt"} <= shop.made()


def test_a_hazard_of_a_tool_and_a_sign_off_that_is_taken_back(shop: Shop) -> None:
    shop.edit("tools/machines/annealing-hearth.yml", "It takes the room.", "It fills the room.")
    signed = load(shop.root)[0].sign_offs
    beside = next(s for s in signed if (s.learner, s.skill, s.level) == ("ansa", "deburring-by-feel", "beside"))
    append(shop.root, "sign-off", {
        "who": "edda", "date": "2026-11-20", "withdraws": str(beside.number),
        "because": "She has had no time for it since the autumn.",
    })
    made = shop.made()
    assert {"procedure-anneal-hood", "procedure-deburr-foot"} <= made
    assert "procedure-true-the-sole" not in made


def test_the_shops_own_word(shop: Shop) -> None:
    shop.edit("procedures/shop.yml", "\nwords:\n", "\nwords:\n  shoulders: Where the leg meets the sole.\n")
    assert "procedure-true-the-sole" in shop.made()


def test_work_that_comes_and_moves_and_is_renamed_and_goes(shop: Shop) -> None:
    shop.write("procedures/foot/brush-foot.yml", EXTRA)
    # a new step moves the numbers that others tell
    shop.edit("procedures/foot/true-the-sole.yml", "steps:\n", "steps:\n  - do: Put the apron on.\n")
    assert {"procedure-brush-foot", "procedure-deburr-foot", "procedure-true-the-sole"} <= shop.made()
    # the figure that it takes from other work, what comes after what, and another name for it
    shop.edit("procedures/foot/deburr-foot.yml", "heat of the foot: max 45 °C", "heat of the foot: max 44 °C")
    text = EXTRA.replace("after: deburr-foot", "after: fill-foot").replace("brush-foot", "sweep-foot")
    (shop.root / "procedures/foot/brush-foot.yml").unlink()
    shop.write("procedures/foot/sweep-foot.yml", text)
    assert {"procedure-sweep-foot", "procedure-deburr-foot", "procedure-fill-foot"} <= shop.made()
    (shop.root / "procedures/foot/sweep-foot.yml").unlink()
    assert "procedure-fill-foot" in shop.made()


# --- what is kept on the disk -------------------------------------------------------------------------------

BELL = Path(__file__).parent.parent / "notebooks" / "hand-bell"


def built(root: Path, folder: Path, system: System = "both") -> list[str]:
    """A build of this notebook with what lies in ``folder``; the names of the pages that had to be made."""
    surveyed = analysis(root, TODAY)
    site = Site(surveyed, tuple(examine(surveyed)), system)
    pages = PageStore(folder)
    assert [*made_pages(site, pages)] == [*made_pages(site, None)]
    return pages.made


@pytest.fixture
def bell(tmp_path: Path) -> Path:
    return Path(shutil.copytree(BELL, tmp_path / "bell"))


def test_the_next_run_finds_what_the_last_one_kept_wherever_the_folder_went(bell: Path, tmp_path: Path) -> None:
    assert len(built(bell, tmp_path / "cache")) > 1
    assert built(bell, tmp_path / "cache") == []
    assert built(bell.rename(tmp_path / "stick"), tmp_path / "cache") == []


def test_another_system_of_units_is_another_book(bell: Path, tmp_path: Path) -> None:
    built(bell, tmp_path / "cache")
    made = built(bell, tmp_path / "cache", "imperial")  # compared there page by page
    assert "procedure-turn-bell" in made and "procedure-warm-the-tongs" not in made, "a page without a unit is the same"


def test_a_page_that_is_no_longer_made_is_forgotten(bell: Path, tmp_path: Path) -> None:
    first = built(bell, tmp_path / "cache")
    gone = next(bell.glob("procedures/**/*.yml"))
    while "procedure:" not in gone.read_text("utf-8"):
        gone = next(file for file in bell.glob("procedures/**/*.yml") if file != gone)
    gone.unlink()
    built(bell, tmp_path / "cache")
    left = {file.stem for file in (tmp_path / "cache").iterdir()}
    assert f"procedure-{gone.stem}" in first and f"procedure-{gone.stem}" not in left


@pytest.mark.parametrize("damaged", ["", "[", "[]", '["1", {}]', '["1", {"parts": 3}]', "null", "\x00"])
def test_what_was_damaged_is_made_again(bell: Path, tmp_path: Path, damaged: str) -> None:
    first = built(bell, tmp_path / "cache")
    for file in (tmp_path / "cache").iterdir():
        file.write_text(damaged, "utf-8")
    assert built(bell, tmp_path / "cache") == first
    assert built(bell, tmp_path / "cache") == []


def test_a_folder_that_cannot_be_made_keeps_nothing(bell: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    assert built(bell, tmp_path / "file" / "pages") == built(bell, tmp_path / "file" / "pages")


def test_a_file_that_is_saved_while_the_rules_run_is_read_as_it_was(bell: Path, tmp_path: Path) -> None:
    """What a page holds and what it is kept under come from the same reading of the file."""
    surveyed = analysis(bell, TODAY)
    file = next(f for f in sorted(bell.glob("procedures/**/*.yml")) if f.read_text("utf-8").find("procedure:") >= 0)
    file.write_text(file.read_text("utf-8").replace("title: ", "title: Newly ", 1), "utf-8")
    pages = PageStore(tmp_path / "cache")
    list(made_pages(Site(surveyed, tuple(examine(surveyed))), pages))
    assert f"procedure-{file.stem}" in built(bell, tmp_path / "cache")
