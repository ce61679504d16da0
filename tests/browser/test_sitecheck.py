"""The checks themselves: each finds the fault it is there for."""

from pathlib import Path

import nu
import pytest
import sitecheck
from playwright.sync_api import BrowserContext

PAGE = '<!doctype html><html lang="en"><title>t</title><main><h1>t</h1>{}</main></html>'


def written(folder: Path, inside: str, name: str = "index.html") -> Path:
    path = folder / name
    path.write_text(PAGE.format(inside), encoding="utf-8")
    return path


def test_a_page_wider_than_the_screen_is_found(context: BrowserContext, tmp_path: Path) -> None:
    path = written(tmp_path, '<div class="plank" style="width:600px">plank</div>')
    with sitecheck.opened(context, path) as (page, _):
        (complaint,) = sitecheck.no_sideways_scroll(page, (360, 1280))
    assert complaint.startswith("360 px:") and "div.plank" in complaint


def test_a_request_that_leaves_is_found_even_when_it_fails(context: BrowserContext, tmp_path: Path) -> None:
    path = written(tmp_path, '<img src="http://fonts.example/a.png" alt="">')
    assert "index.html: asks for http://fonts.example/a.png" in sitecheck.requests_leaving(context, [path])


@pytest.mark.usefixtures("axe_core")
def test_a_picture_without_words_is_found(context: BrowserContext, tmp_path: Path) -> None:
    path = written(tmp_path, '<img src="data:image/gif;base64,R0lGODlhAQABAAAAACw=" width="40" height="40">')
    with sitecheck.opened(context, path) as (page, _):
        assert any(complaint.startswith("image-alt") for complaint in sitecheck.axe(page))


def test_markup_against_the_standard_is_found(java: str, tmp_path: Path) -> None:
    (complaint,) = nu.nu_html([written(tmp_path, "<ul><p>a list holds points</p></ul>")], java)[:1]
    assert complaint.startswith("index.html:1:")


def test_dead_links_and_doubled_ids_are_found(tmp_path: Path) -> None:
    written(tmp_path, '<p id="here">x</p>', "other.html")
    written(
        tmp_path,
        '<a href="other.html#here">1</a> <a href="other.html#gone">2</a> <a href="none.html">3</a> '
        '<a href="/other.html">4</a> <a href="https://shop.example/">5</a> <p id="a">6</p> <p id="a">7</p>',
    )
    assert sitecheck.dead_links(tmp_path) == [
        "index.html: id a stands twice",
        "index.html: other.html#gone is no place on that page",
        "index.html: none.html is no file",
        "index.html: /other.html leads away from the book",
        "index.html: https://shop.example/ leads away from the book",
    ]
