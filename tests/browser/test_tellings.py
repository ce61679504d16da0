"""The mark at an entry plays her voice at that moment: from disk, without a network, and only that long."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
import sitecheck
from playwright.sync_api import BrowserContext
from test_stories import SETTINGS

from site_builder.handbook.build import build_handbook

NOTEBOOK = Path(__file__).parent.parent / "notebooks/telling"
PLAYED = """
window.voices = [];
const made = window.Audio;
window.Audio = function () { const voice = new made(); window.voices.push(voice); return voice; };
"""


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    shop = tmp_path_factory.mktemp("telling") / "shop"
    shutil.copytree(NOTEBOOK, shop)
    (shop / "mkdocs.yml").write_text(SETTINGS, "utf-8")
    build_handbook(shop / "mkdocs.yml", into=None, with_errors=False)
    return shop / "site"


def test_a_touch_plays_the_moment_and_another_stops_it(site: Path, context: BrowserContext) -> None:
    context.add_init_script(PLAYED)
    with sitecheck.opened(context, site / "the-work/weave-sides.html") as (page, log):
        mark = page.locator("a.bl-hear[href$='#t=8,12']")
        mark.click()
        page.wait_for_function("window.voices[0].currentTime > 8")
        assert page.evaluate("[window.voices[0].paused, window.voices[0].currentTime < 12]") == [False, True]
        assert mark.get_attribute("data-playing") == ""
        mark.click()
        page.wait_for_function("window.voices[0].paused")
        assert mark.get_attribute("data-playing") is None
        assert page.url.endswith("weave-sides.html") and log.leaving() == []


def test_it_is_silent_after_the_moment(site: Path, context: BrowserContext) -> None:
    context.add_init_script(PLAYED)
    with sitecheck.opened(context, site / "the-work/weave-sides.html") as (page, _):
        mark = page.locator("a.bl-hear[href$='#t=12,15.5']").first
        mark.click()
        page.wait_for_function("window.voices[0].currentTime > 12")
        page.evaluate("window.voices[0].currentTime = 15.4")
        page.wait_for_function("window.voices[0].paused")
        assert page.evaluate("window.voices[0].currentTime") < 16.5


def test_only_what_is_played_is_copied(site: Path) -> None:
    copied = [file.name for file in site.rglob("*") if file.suffix in (".wav", ".vtt", ".yml")]
    assert len(copied) == 1 and copied[0].startswith("soaking-") and copied[0].endswith(".wav")


def test_its_pages_are_sound(site: Path, context: BrowserContext, axe_core: Path) -> None:
    assert axe_core.is_file()
    pages = [site / "tellings/soaking.html", site / "the-work/weave-sides.html"]
    assert sitecheck.analysis(context, pages, (320, 1366)) == []
