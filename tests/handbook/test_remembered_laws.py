"""After any edit the book is what it would be if all of it were made anew; and every recorded question is needed."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from edits import copy_of, edited

from site_builder.analysis.analysis import analysis
from site_builder.cache.asked import Recorder
from site_builder.checks.engine import examine
from site_builder.handbook.binding import made_pages
from site_builder.handbook.gallery import gallery
from site_builder.handbook.remembered import Kept, PageStore
from site_builder.handbook.site import Page, Site

BELL = Path(__file__).parent.parent / "notebooks" / "hand-bell"
TODAY = date(2026, 11, 24)


def site_of(root: Path, cache: Path) -> Site:
    surveyed = analysis(root, TODAY)
    site = Site(surveyed, tuple(examine(surveyed)))
    return replace(site, pictures=gallery(site, cache)[0])


def stale(site: Site, pages: PageStore) -> list[str]:
    """The pages that differ from those made anew."""
    kept = {page.src_uri: page for page in made_pages(site, pages)}
    anew: dict[str, Page] = {page.src_uri: page for page in made_pages(site, None)}
    assert kept.keys() == anew.keys()
    return [uri for uri, page in anew.items() if kept[uri] != page]


def test_twenty_edits_at_random(tmp_path: Path) -> None:
    chance = random.Random(20261124)
    root = copy_of(BELL, tmp_path / "bell")
    pages = PageStore(tmp_path / "cache")
    reused = 0
    for number in range(20):
        site = site_of(root, tmp_path / "pictures")
        assert stale(site, pages) == [], f"after edit {number}"
        reused += len(pages.now) - len(pages.made)
        edited(chance, root)
        if number % 5 == 4:  # another run of the program, which has nothing but what lies on the disk
            pages = PageStore(tmp_path / "cache")
    assert reused > 20, "nothing was ever kept, so nothing was shown"


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Path, dict[str, Kept]]:
    root = copy_of(BELL, tmp_path_factory.mktemp("first") / "bell")
    cache = tmp_path_factory.mktemp("pictures")
    pages = PageStore()
    assert stale(site_of(root, cache), pages) == []
    return root, cache, pages.now


def test_every_recorded_question_is_put_again_and_a_changed_answer_makes_the_page_anew(
    first: tuple[Path, Path, dict[str, Kept]]
) -> None:
    root, cache, now = first
    site = site_of(root, cache)
    for name, kept in now.items():
        for question in kept.questions:
            other = Kept(kept.page, {**kept.questions, question: "another answer"})
            without = Kept(kept.page, {q: a for q, a in other.questions.items() if q != question or q == "given"})
            assert _made(site, {**now, name: other}) == [name], question
            if question != "given":
                assert _made(site, {**now, name: without}) == [], question


def _made(site: Site, before: dict[str, Kept]) -> list[str]:
    """Which pages would be made, without making any."""
    pages = PageStore(now=dict(before))
    build = pages.begin(site)
    return [name for name, kept in before.items()
            if not build.answers.same({q: a for q, a in kept.questions.items() if q != "given"})
            or kept.questions["given"] == "another answer"]


def _retitled(root: Path) -> None:
    file = root / "procedures" / "bell" / "cast-bell.yml"
    file.write_text(file.read_text("utf-8").replace("title: ", "title: Newly ", 1), "utf-8")


def _unsigned(root: Path) -> None:
    (root / "skills" / "records" / "sign-offs.yml").unlink()


@pytest.mark.parametrize(("deaf", "edit"), [("", _retitled), ("able_to_do", _unsigned)])
def test_a_recorder_that_is_deaf_leaves_a_page_as_it_should_not_be(
    deaf: str, edit: Callable[[Path], None], first: tuple[Path, Path, dict[str, Kept]], tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The laws above can fail: deaf to every question (``deaf`` empty), or to one kind of them."""
    root, cache, _ = first
    hears = Recorder.hear

    def hear(recorder: Recorder, question: str, digest: str) -> None:
        if deaf and deaf not in question:
            hears(recorder, question, digest)

    with monkeypatch.context() as patched:
        patched.setattr(Recorder, "hear", hear)
        pages = PageStore()
        list(made_pages(site_of(root, cache), pages))
    after = copy_of(root, tmp_path / "after")
    edit(after)
    site = site_of(after, cache)
    assert stale(site, PageStore(now=dict(pages.now))) != []
    assert stale(site, PageStore(now=dict(first[2]))) == []
