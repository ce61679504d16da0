"""What was told stands at the entry it became, with the voice only where everybody heard has agreed."""

from __future__ import annotations

import io
import shutil
import zipfile
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner
from expectation import NOTEBOOKS, book_of, expect, page

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine
from site_builder.cli.printing import print_
from site_builder.handbook.gallery import gallery
from site_builder.handbook.pages.procedure import procedure_pages
from site_builder.handbook.pages.tellings import telling_pages
from site_builder.handbook.pages.unwritten import unwritten_pages
from site_builder.handbook.site import UNWRITTEN, Site

TODAY = date(2026, 11, 24)


def shop(folder: Path, recordings: str) -> Site:
    """The withy yard with other words on who may be heard, and its recordings published."""
    shutil.copytree(NOTEBOOKS / "telling", folder / "shop")
    file = folder / "shop/procedures/shop.yml"
    text = file.read_text("utf-8")
    assert "recordings:\n  agreed: [mab]\n" in text
    file.write_text(text.replace("recordings:\n  agreed: [mab]\n", recordings), "utf-8")
    surveyed = analysis(folder / "shop", TODAY)
    site = Site(surveyed, tuple(examine(surveyed)))
    return Site(surveyed, site.findings, pictures=gallery(site, folder / "cache")[0])


def epub(root: Path, folder: Path) -> bytes:
    shutil.copy(NOTEBOOKS.parent.parent / "mkdocs.yml", root / "mkdocs.yml")
    result = CliRunner().invoke(print_, ["epub", "-n", str(root), "-o", str(folder / "book.epub")])
    assert result.exit_code == 0, result.output
    return (folder / "book.epub").read_bytes()


def procedure(site: Site) -> str:
    return next(procedure_pages(site)).html


def test_the_page_of_a_telling() -> None:
    expect(page(telling_pages, book_of("telling"), "tellings/soaking.md"), "telling")


def test_an_entry_plays_its_moment(tmp_path: Path) -> None:
    html = procedure(shop(tmp_path, "recordings: {agreed: [mab]}\n"))
    assert html.count('class="bl-hear"') >= 4
    assert '.wav#t=4.5,8">Hear Mab say it</a>: “You lay them in the trough until they bend without a sound.”' in html
    assert 'data-otherwise="Told by Mab"' in html
    assert "At the trough, 14 September 2026, at 0:04." in html


@pytest.mark.parametrize("recordings", [
    "", "recordings: {declined: [mab]}\n", "recordings: {agreed: [mab], declined: [mab]}\n",
    "recordings: {agreed: [tor]}\n", "recordings: {show: words, agreed: [mab]}\n",
])
def test_without_consent_nothing_is_copied_and_the_words_stay(recordings: str, tmp_path: Path) -> None:
    site = shop(tmp_path, recordings)
    assert site.pictures == {}
    html = procedure(site)
    assert "bl-hear" not in html
    assert "Told by Mab: “You lay them in the trough until they bend without a sound.”" in html
    asked = [f.code for f in site.findings if f.code == "voice-unasked"]
    assert asked == (["voice-unasked"] if recordings in ("", "recordings: {agreed: [tor]}\n") else [])


def test_everybody_heard_must_agree(tmp_path: Path) -> None:
    site = shop(tmp_path, "recordings: {agreed: [mab]}\n")
    file = site.notebook.root / "procedures/tellings/soaking.yml"
    file.write_text(file.read_text("utf-8") + "others: [tor]\n", "utf-8")
    surveyed = analysis(site.notebook.root, TODAY)
    assert gallery(Site(surveyed, ()), tmp_path / "cache")[0] == {}
    assert [f.message for f in examine(surveyed) if f.code == "voice-unasked"] == [
        "Does Tor Lind agree that the handbook plays this recording?"]


def test_only_a_recording_to_which_something_leads_is_copied(tmp_path: Path) -> None:
    site = shop(tmp_path, "recordings: {agreed: [mab]}\n")
    work = site.notebook.root / "procedures/weave-sides.yml"
    lines = [line for line in work.read_text("utf-8").splitlines(keepends=True) if "told:" not in line]
    work.write_text("".join(lines), "utf-8")
    assert gallery(Site(analysis(site.notebook.root, TODAY), ()), tmp_path / "cache")[0] == {}


def test_the_whole_telling_is_a_page_if_the_shop_says_so(tmp_path: Path) -> None:
    site = shop(tmp_path, "recordings: {show: whole, agreed: [mab]}\n")
    whole = page(telling_pages, site, "tellings/whole/soaking.md").html
    assert whole.count('class="bl-hear"') == 5 and "Mind the dog" in whole and "laid aside" in whole
    assert 'taken up in <a href="../../the-work/weave-sides.html">Weave the sides</a>' in whole
    opened = page(telling_pages, site, "tellings/soaking.md").html
    assert "Mind the dog" not in opened and 'href="whole/soaking.html"' in opened


def test_an_e_book_and_paper_carry_no_voice_and_do_not_say_so(tmp_path: Path) -> None:
    site = shop(tmp_path, "recordings: {agreed: [mab]}\n")
    book = zipfile.ZipFile(io.BytesIO(epub(site.notebook.root, tmp_path)))
    words = "".join(book.read(name).decode("utf-8") for name in book.namelist() if name.endswith(".xhtml"))
    assert "Told by Mab" in words and "Hear Mab say it" not in words and "data-otherwise" not in words


def test_still_unwritten_leads_to_what_is_open() -> None:
    html = page(unwritten_pages, book_of("telling"), UNWRITTEN).html
    assert '<a href="tellings/soaking.html">Mab on soaking rods</a>' in html
    assert "Of five sentences three are taken up, one laid aside and one still open." in html
