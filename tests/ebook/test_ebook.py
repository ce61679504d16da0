"""The e-book: what stands in it, in which order, and that any reader of such books can open it."""

from __future__ import annotations

import errno
import os
import re
import zipfile
from collections import Counter
from io import BytesIO
from pathlib import Path

import pytest
from click.testing import CliRunner
from epubs import NOTEBOOKS, ROOT, complaints, day_of, made, notebook_opened, pages, texts, words_of

from site_builder.cli.main import cli
from site_builder.ebook.epub import epub
from site_builder.ebook.press import templates
from site_builder.handbook.binding import made_pages
from site_builder.handbook.opened import opened
from site_builder.handbook.theme import environment

FORGE = NOTEBOOKS / "hook-forge"
FIDDLE = NOTEBOOKS / "trades" / "fiddle"
XHTML = "{http://www.w3.org/1999/xhtml}"


@pytest.mark.parametrize("folder", [ROOT, NOTEBOOKS / "trades" / "dyehouse"], ids=["demo", "dyehouse"])
def test_epubcheck_finds_nothing(folder: Path) -> None:
    assert list(complaints(made(folder))) == []


def test_the_same_notebook_on_the_same_day_gives_the_same_bytes() -> None:
    assert epub(opened(notebook_opened(FORGE).site.notebook.root, today=day_of(FORGE)).site) == made(FORGE)


def test_a_reader_knows_it_by_its_first_bytes() -> None:
    """EPUB 3.3, OCF: the media type stands at byte 30, so that systems know the file without opening it."""
    assert made(FORGE)[30:58] == b"mimetypeapplication/epub+zip"


@pytest.mark.parametrize("folder", [ROOT, FIDDLE], ids=["demo", "fiddle"])
def test_it_tells_all_that_the_handbook_tells(folder: Path) -> None:
    """Of each page that both have, the book leaves out no word that a reader of the handbook sees."""
    site = notebook_opened(folder).site
    chapters = texts(made(folder))
    compared = 0
    for page in made_pages(site, None):
        own = chapters.get(f"book/{page.src_uri.removesuffix('.md')}.xhtml")
        if own is not None:
            there = Counter(words_of(_said_once(page.html))) - Counter(own)
            assert not there, page.src_uri
            compared += 1
    assert compared > 20


def _said_once(article: str) -> str:
    """Without the way on that stands at the head as well as at the foot, the words that only open a reason, and the
    numbers that the e-book draws into its pictures or leaves to its lists."""
    article = re.sub(r'<nav class="bl-turn bl-turn--top".*?</nav>', "", article, flags=re.DOTALL)
    article = re.sub(r'<span class="bl-(?:fig__n|no)"[^>]*>\d+</span>', "", article)
    return re.sub(r"<summary>(?:why|if not)</summary>", "", article)


def test_everything_written_has_its_page_and_stands_in_the_contents_and_the_index() -> None:
    site, book = notebook_opened(ROOT).site, pages(made(ROOT))
    wanted = {f"book/{address.partition('#')[0].removesuffix('.md')}.xhtml"
              for (kind, _), address in site.addresses.items()
              if kind in ("procedure", "part", "tool", "material", "skill", "person", "change", "word")}
    assert wanted <= set(book)
    listed = {a.get("href") for a in book["book/contents.xhtml"].iter(f"{XHTML}a")}
    assert {name.removeprefix("book/") for name in wanted} <= listed
    index = "".join(book["book/index-of-things.xhtml"].itertext())
    nb = site.notebook
    for id_ in (*nb.tools, *nb.materials, *nb.skills):
        kind = next(kind for kind in ("tool", "material", "skill") if (kind, id_) in site.addresses)
        assert site.titles[kind, id_].lower() in index.lower()
    assert "A seam like a healed cut runs over the shoulder" in index


def test_it_is_read_in_the_order_of_the_work() -> None:
    site = notebook_opened(ROOT).site
    package = zipfile.ZipFile(BytesIO(made(ROOT))).read("book/package.opf").decode()
    paths = dict(re.findall(r'<item id="([^"]+)" href="([^"]+)"', package))
    read = [paths[id_] for id_ in re.findall(r'<itemref idref="([^"]+)"', package)]
    assert read[:2] == ["contents.xhtml", "index.xhtml"] and read[-1] == "index-of-things.xhtml"
    order = [site.addresses["procedure", id_].removesuffix(".md") + ".xhtml" for id_ in site.analysis.route.order]
    foot = [one for one in order if one.startswith("the-work/foot/")]
    assert [one for one in read if one in foot] == foot


def test_a_limit_is_a_line_that_is_drawn_and_says_the_same_in_words() -> None:
    page = pages(made(ROOT))["book/the-work/foot/true-the-sole.xhtml"]
    gauge = next(one for one in page.iter(f"{XHTML}div") if one.get("class") == "bl-gauge"
                 and "Heat of the foot" in "".join(one.itertext()))
    assert len(list(gauge.iter("{http://www.w3.org/2000/svg}path"))) >= 3
    said = re.sub(r"\s+", " ", "".join(gauge.itertext()))
    assert "Up to 45 °C Go on." in said and "Above 45 °C Leave it on the rack." in said


def test_pictures_are_in_forms_that_every_reader_must_know() -> None:
    names = zipfile.ZipFile(BytesIO(made(ROOT))).namelist()
    endings = {Path(name).suffix for name in names if name.startswith("book/pictures/")}
    assert endings == {".jpg", ".svg"}


def test_it_says_how_far_it_is_accessible_and_no_more() -> None:
    package = zipfile.ZipFile(BytesIO(made(ROOT))).read("book/package.opf").decode()
    for said in ("accessMode", "accessModeSufficient", "accessibilityFeature", "accessibilityHazard",
                 "accessibilitySummary"):
        assert f'property="schema:{said}"' in package
    assert "dcterms:conformsTo" not in package  # nobody has examined it, so no level is claimed


def test_the_ebook_knows_every_part_that_the_pages_are_made_of() -> None:
    handbook, own = (env.get_template("components.j2").module for env in (environment(), templates()))
    names = {name for name in vars(handbook) if not name.startswith("_") and callable(getattr(handbook, name))}
    for name in sorted(names):
        assert hasattr(own, name), f"the e-book has no part `{name}`"
        assert getattr(own, name).arguments == getattr(handbook, name).arguments, name


def test_texts_that_look_like_markup_stay_texts(tmp_path: Path) -> None:
    (tmp_path / "procedures" / "stories").mkdir(parents=True)
    (tmp_path / "procedures" / "grind.yml").write_text(
        "procedure: grind\ntitle: \"Grind <b> & 'sand' ]]>\"\nsteps:\n  - do: \"Press < 5 & \\\"lift\\\"\"\n", "utf-8")
    (tmp_path / "procedures" / "stories" / "old.md").write_text(
        "# Long ago\n\nA <script>alert(1)</script> line<br>and [[grind]], [[nothing]]\f.\n\n"
        "| a | b |\n|---|---|\n| 1 | 2 |\n\n![gone](gone.png)\n", "utf-8")
    book = pages(epub(opened(tmp_path, today=day_of(FORGE), with_errors=True).site))
    assert "Grind <b> & 'sand' ]]>" in "".join(book["book/the-work/grind.xhtml"].itertext()).replace("’", "'")
    story = book["book/stories/old.xhtml"]
    assert "<script>" in "".join(story.itertext())
    assert any(a.get("href") == "../the-work/grind.xhtml" for a in story.iter(f"{XHTML}a"))


# --- the file ------------------------------------------------------------------------------------------------


def _print(*arguments: str) -> tuple[int, str]:
    result = CliRunner().invoke(cli, ["print", "epub", "-n", str(notebook_opened(FORGE).site.notebook.root),
                                      "--today", day_of(FORGE).isoformat(), *arguments])
    return result.exit_code, result.output


def test_the_command_writes_a_book_and_writes_it_anew(tmp_path: Path) -> None:
    file = tmp_path / "forge.epub"
    assert _print("-o", str(file))[0] == 0
    first = file.read_bytes()
    assert first == made(FORGE)
    assert _print("-o", str(file))[0] == 0
    assert file.read_bytes() == first and [one.name for one in tmp_path.iterdir()] == ["forge.epub"]


def test_what_is_no_book_of_ours_is_left_alone(tmp_path: Path) -> None:
    file = tmp_path / "letter.epub"
    file.write_text("Dear grandmother", "utf-8")
    code, said = _print("-o", str(file))
    assert code == 2 and "no e-book that we made" in said and file.read_text("utf-8") == "Dear grandmother"
    assert _print("-o", str(tmp_path))[0] == 2
    assert _print("-o", str(tmp_path / "no" / "folder.epub"))[0] == 2


def test_a_full_disk_is_told_and_the_last_book_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "forge.epub"
    assert _print("-o", str(file))[0] == 0
    before = file.read_bytes()

    def no_room(_handle: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", no_room)
    code, said = _print("-o", str(file))
    assert code == 2 and "disk is full" in said
    assert file.read_bytes() == before and [one.name for one in tmp_path.iterdir()] == ["forge.epub"]


def test_a_notebook_with_errors_makes_no_book(tmp_path: Path) -> None:
    (tmp_path / "procedures").mkdir()
    (tmp_path / "procedures" / "grind.yml").write_text(
        "procedure: grind\ntitle: Grind\nsteps:\n  - do: See [[none]].\n", "utf-8")
    result = CliRunner().invoke(cli, ["print", "epub", "-n", str(tmp_path), "-o", str(tmp_path / "b.epub")])
    assert result.exit_code == 1 and not (tmp_path / "b.epub").exists()
