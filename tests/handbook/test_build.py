"""`benchlore build`: errors stop it, a failed build leaves the last good book, `--with-errors` marks pages."""

from __future__ import annotations

import re
from datetime import date
from pathlib import Path

import pytest
from PIL import Image

from site_builder.analysis.analysis import analysis
from site_builder.checks.engine import examine
from site_builder.handbook.build import BuildFailed, build_handbook
from site_builder.notebook.finding import Level
from site_builder.skills.last import read_last
from site_builder.skills.sealing import seal_book

SETTINGS = """\
site_name: Small shop
docs_dir: procedures
strict: true
theme: {name: material}
plugins: [search, offline, benchlore]
validation: {nav: {omitted_files: ignore}}
"""
GOOD = "procedure: grind\ntitle: Grind the foot flat\nsteps:\n  - do: Sweep it along the belt.\n    time: 2 min\n"
BAD = GOOD.replace("2 min", "2,5 min")


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    (tmp_path / "procedures").mkdir()
    (tmp_path / "mkdocs.yml").write_text(SETTINGS, "utf-8")
    (tmp_path / "procedures" / "grind.yml").write_text(GOOD, "utf-8")
    return tmp_path


def build(shop: Path, *, with_errors: bool = False) -> None:
    build_handbook(shop / "mkdocs.yml", into=None, with_errors=with_errors)


def everything(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def test_a_good_notebook_becomes_a_book(shop: Path) -> None:
    build(shop)
    assert "Grind the foot flat" in (shop / "site" / "the-work" / "grind.html").read_text("utf-8")


def test_the_shop_is_called_as_it_calls_itself_whatever_the_settings_say(shop: Path) -> None:
    (shop / "procedures" / "shop.yml").write_text("shop: bowls\ntitle: The bowl turners\n", "utf-8")
    build(shop)
    page = (shop / "site" / "index.html").read_text("utf-8")
    assert "<title>The bowl turners</title>" in page and "<span>The bowl turners</span>" in page
    assert "Small shop" not in page


def test_an_error_stops_the_build_and_the_last_good_book_stays_as_it_was(shop: Path) -> None:
    build(shop)
    before = everything(shop / "site")
    (shop / "procedures" / "grind.yml").write_text(BAD, "utf-8")
    with pytest.raises(BuildFailed) as failed:
        build(shop)
    assert "procedures/grind.yml:5:11: error[decimal-comma]" in str(failed.value)
    assert "--with-errors" in str(failed.value)
    assert everything(shop / "site") == before
    assert sorted(p.name for p in shop.iterdir() if p.name.startswith("site")) == ["site"]


def test_with_errors_the_pages_concerned_carry_a_mark(shop: Path) -> None:
    (shop / "procedures" / "grind.yml").write_text(BAD, "utf-8")
    build(shop, with_errors=True)
    page = (shop / "site" / "the-work" / "grind.html").read_text("utf-8")
    assert "Not sound: do not work from this page." in page
    assert "procedures/grind.yml:5" in page
    assert "Not sound" not in (shop / "site" / "the-work" / "index.html").read_text("utf-8")


def test_a_broken_link_in_a_story_stops_the_build_too(shop: Path) -> None:
    (shop / "procedures" / "stories").mkdir()
    (shop / "procedures" / "stories" / "old.md").write_text("# Old\n\n[gone](nowhere.md)\n", "utf-8")
    with pytest.raises(BuildFailed):
        build(shop)
    assert not (shop / "site").exists()


def test_a_story_that_is_no_text_is_told_and_left_out(shop: Path) -> None:
    (shop / "procedures" / "stories").mkdir()
    (shop / "procedures" / "stories" / "old.md").write_bytes("# Die Großmutter".encode("latin-1"))
    with pytest.raises(BuildFailed) as failed:
        build(shop)
    assert "procedures/stories/old.md:1:10: error[encoding-wrong]" in str(failed.value)
    build(shop, with_errors=True)
    assert (shop / "site" / "index.html").exists()
    assert not (shop / "site" / "stories" / "old.html").exists()


@pytest.mark.parametrize("link", ["../photos/IMG 2.JPG", "../photos/IMG%202.JPG", "<../photos/IMG 2.JPG>"])
def test_a_picture_of_a_story_may_have_the_name_the_phone_gave_it(link: str, shop: Path) -> None:
    (shop / "procedures" / "stories").mkdir()
    (shop / "procedures" / "photos").mkdir()
    Image.new("RGB", (40, 30), "green").save(shop / "procedures" / "photos" / "IMG 2.JPG")
    (shop / "procedures" / "stories" / "old.md").write_text(f"# Old\n\n![The yard]({link})\n", "utf-8")
    build(shop)
    page = (shop / "site" / "stories" / "old.html").read_text("utf-8")
    assert 'class="bl-photo"' in page and 'alt="The yard"' in page


def test_a_picture_that_tells_where_it_was_taken_goes_out_only_without_it(shop: Path) -> None:
    place = Image.Exif()
    place.get_ifd(0x8825).update({1: "N", 2: (48.0, 12.0, 30.0), 3: "E", 4: (11.0, 3.0, 3.0)})
    (shop / "procedures" / "stories").mkdir()
    for picture in ("yard.jpg", "never-shown.jpg"):  # beside the story, not under photos/
        Image.new("RGB", (40, 30), "green").save(shop / "procedures" / "stories" / picture, exif=place)
    (shop / "procedures" / "stories" / "old.md").write_text("# Old\n\n![The yard](yard.jpg)\n", "utf-8")
    build(shop)
    site = shop / "site"
    assert "assets/photos/yard-" in (site / "stories" / "old.html").read_text("utf-8")
    assert [file.name for file in (site / "stories").iterdir()] == ["old.html"]


def test_a_link_to_a_picture_leads_to_what_goes_out_of_it(shop: Path) -> None:
    place = Image.Exif()
    place.get_ifd(0x8825).update({1: "N", 2: (48.0, 12.0, 30.0), 3: "E", 4: (11.0, 3.0, 3.0)})
    stories = shop / "procedures" / "stories"
    stories.mkdir()
    Image.new("RGB", (40, 30), "green").save(stories / "yard.jpg", exif=place)
    told = "# Old\n\nSee [the *old* yard](yard.jpg), or don't.\n\nWritten as `[[dent]] isn't` and `![x](yard.jpg)`.\n"
    (stories / "old.md").write_text(told, "utf-8")
    build(shop)
    page = (shop / "site" / "stories" / "old.html").read_text("utf-8")
    assert re.search(r'See <a href="\.\./assets/photos/yard-[^"]+">the <em>old</em> yard</a>, or don’t\.', page)
    assert "<code>[[dent]] isn't</code> and <code>![x](yard.jpg)</code>" in page
    assert not (shop / "site" / "stories" / "yard.jpg").exists()


def test_a_picture_of_a_story_may_be_named_at_its_foot(shop: Path) -> None:
    place = Image.Exif()
    place.get_ifd(0x8825).update({1: "N", 2: (48.0, 12.0, 30.0), 3: "E", 4: (11.0, 3.0, 3.0)})
    stories = shop / "procedures" / "stories"
    stories.mkdir()
    Image.new("RGB", (40, 30), "green").save(stories / "yard.jpg", exif=place)
    (stories / "old.md").write_text("# Old\n\n![The yard][y]\n\nSee [it][y].\n\n[y]: yard.jpg\n", "utf-8")
    build(shop)
    page = (shop / "site" / "stories" / "old.html").read_text("utf-8")
    assert re.search(r'<figure class="bl-photo"><img src="\.\./assets/photos/yard-', page)
    assert re.search(r'See <a href="\.\./assets/photos/yard-[^"]+">it</a>\.', page)


@pytest.mark.parametrize(("written", "at", "code", "fix"), [
    ("<kbd>Esc</kbd>", "3:1", "warning[story-html]", "between backticks"),
    ("![x](https://far.example/x.png)", "3:6", "error[story-outside]", "Save the picture under `procedures/photos/`"),
    ("[x](../grind.yml)", "3:5", "error[story-link]", "Link its page as `[[grind]]`"),
])
def test_what_a_story_may_not_hold_is_told_at_its_place(
    written: str, at: str, code: str, fix: str, shop: Path
) -> None:
    (shop / "procedures" / "stories").mkdir()
    (shop / "procedures" / "stories" / "old.md").write_text(f"# Old\n\n{written}\n", "utf-8")
    told = [f for f in examine(analysis(shop, date(2026, 11, 24))) if f.code in code]
    assert [f.line().startswith(f"procedures/stories/old.md:{at}: {code}") for f in told] == [True]
    assert fix in told[0].fix
    build(shop, with_errors=True)
    page = (shop / "site" / "stories" / "old.html").read_text("utf-8")
    assert "<kbd>" not in page and 'far.example/x.png"' not in page and ".yml" not in page.partition("<article")[2]


def test_a_reference_in_a_table_keeps_its_words_and_a_comment_is_not_seen(shop: Path) -> None:
    (shop / "procedures" / "stories").mkdir()
    (shop / "procedures" / "stories" / "old.md").write_text(
        "# Old\n\n<!-- not\n\nyet -->\n\n| What | Who |\n| --- | --- |\n| [[grind|grinding]] | Edda's <!-- ? --> |\n",
        "utf-8",
    )
    build(shop)
    page = (shop / "site" / "stories" / "old.html").read_text("utf-8")
    assert '<td><a href="../the-work/grind.html">grinding</a></td>\n<td>Edda’s</td>' in page
    assert "yet" not in page


DRAWINGS = {
    "with a script": '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><script>1</script></svg>',
    "broken at its end": '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">' + "<g/>" * 30_000,
    "too deep": '<svg xmlns="http://www.w3.org/2000/svg">' + "<g>" * 200 + "</g>" * 200 + "</svg>",
    "with entities behind its head": f'<svg xmlns="http://www.w3.org/2000/svg">{" " * 70_000}<!ENTITY a "b"></svg>',
    "with a picture from outside": '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">'
                                   '<image href="https://far.example/x.png"/></svg>',
    "whole": '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M0 0h9"/></svg>',
}


@pytest.mark.parametrize("drawing", DRAWINGS.values(), ids=DRAWINGS.keys())
def test_a_drawing_that_check_lets_by_does_not_stop_the_build(drawing: str, shop: Path) -> None:
    (shop / "procedures" / "photos").mkdir()
    (shop / "procedures" / "photos" / "sole.svg").write_text(drawing, "utf-8")
    (shop / "procedures" / "grind.yml").write_text(
        GOOD + "    pictures: {file: sole.svg, shows: The sole}\n", "utf-8")
    passed = not [f for f in examine(analysis(shop, date(2026, 11, 24))) if f.level is Level.ERROR]
    if passed:
        build(shop)
        assert "The sole" in (shop / "site" / "the-work" / "grind.html").read_text("utf-8")
    else:
        with pytest.raises(BuildFailed, match=r"procedures/grind.yml:6:\d+: error\[picture-unreadable\]"):
            build(shop)


def test_a_recording_goes_out_only_as_its_quiet_copy(shop: Path) -> None:
    stories = shop / "procedures" / "stories"
    stories.mkdir()
    told = b"LIST\x1a\0\0\0INFOINAM\x0e\0\0\0At Tilde's yard"[:34]
    (stories / "ring.wav").write_bytes(
        b"RIFF" + (4 + len(told) + 12).to_bytes(4, "little") + b"WAVE" + told + b"data\4\0\0\0\1\2\3\4")
    (stories / "never-named.wav").write_bytes((stories / "ring.wav").read_bytes())
    (stories / "old.md").write_text("# Old\n\nHear [how it rings](ring.wav).\n", "utf-8")
    build(shop)
    assert [file.name for file in (shop / "site" / "stories").iterdir()] == ["old.html"]
    (copy,) = (shop / "site" / "assets" / "photos").iterdir()
    assert b"Tilde" not in copy.read_bytes() and b"\1\2\3\4" in copy.read_bytes()
    assert f'href="../assets/photos/{copy.name}"' in (shop / "site" / "stories" / "old.html").read_text("utf-8")


def test_the_notebook_itself_is_not_published(shop: Path) -> None:
    build(shop)
    assert list((shop / "site").rglob("*.yml")) == []


def test_a_folder_without_settings_or_plugin_is_told_so(shop: Path) -> None:
    (shop / "mkdocs.yml").write_text(SETTINGS.replace(", benchlore", ""), "utf-8")
    with pytest.raises(BuildFailed, match="plugin `benchlore`"):
        build(shop)


def test_every_page_and_every_printed_sheet_carries_the_last_seal(shop: Path) -> None:
    (shop / "skills" / "records").mkdir(parents=True)
    (shop / "skills" / "people.yml").write_text("people: {a: {name: Ann, founding: yes}, b: Bo}\n", "utf-8")
    (shop / "skills" / "grinding.yml").write_text("skill: grinding\ntitle: Grinding\ncovers: grind\n", "utf-8")
    (shop / "skills" / "records" / "sign-offs.yml").write_text(
        "---\nsign-off: 1\nwho: a\ndate: 2026-02-01\nlearner: b\nskill: grinding\nlevel: beside\n", "utf-8")
    seal_book(shop, "sign-off", {})
    build(shop)
    last = read_last(shop / "skills" / "records" / "sign-offs.yml")
    assert last is not None
    seal = " ".join(last.seal[i : i + 8] for i in range(0, 64, 8))
    said = f"Book of sign-offs: entry 1 of 1 February 2026, seal {seal}"
    for page in ("index.html", "the-work/grind.html", "the-hands/people/b.html"):
        html = (shop / "site" / page).read_text("utf-8")
        assert f'<p class="bl-seal">{said}.</p>' in html
        assert said in html.split("@bottom-left{", 1)[1].split("}", 1)[0]  # the foot of each sheet of paper
