"""MkDocs and Material are told of our face, whatever else a shop has set."""

import re
from pathlib import Path
from typing import Any

import pytest
import yaml
from jinja2 import Environment, UndefinedError
from markupsafe import Markup
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError

from site_builder.handbook.offline import stays_out
from site_builder.handbook.theme import OVERRIDES, environment, equip, outline, wire
from site_builder.views.anchors import token


def shop(folder: Path, **settings: Any) -> MkDocsConfig:
    (folder / "docs").mkdir()
    written = folder / "mkdocs.yml"
    written.write_text(yaml.safe_dump({"site_name": "Shop", "theme": {"name": "material"}, **settings}))
    return load_config(str(written))


def test_no_font_comes_from_outside(tmp_path: Path) -> None:
    config = shop(tmp_path)
    wire(config)
    assert config.theme["font"] is False


def test_no_script_of_the_theme_is_loaded_or_published() -> None:
    skeleton = (OVERRIDES / "main.html").read_text("utf-8")
    loaded = re.findall(r"""<script src="\{\{ '([^']+)'""", skeleton)
    assert "assets/handbook/finder/finder.js" in loaded
    assert [one for one in loaded if not (OVERRIDES / one).is_file()] == []
    assert stays_out("assets/javascripts/bundle.a5f9d56c.min.js")
    assert not stays_out("assets/handbook/finder/minisearch.js")


def test_a_shop_may_lay_its_own_templates_over_ours(tmp_path: Path) -> None:
    own = tmp_path / "own"
    own.mkdir()
    config = shop(tmp_path, theme={"name": "material", "custom_dir": str(own)})
    wire(config)
    wire(config)  # a second build of mkdocs serve
    assert config.theme.dirs[:2] == [str(own), str(OVERRIDES)]
    assert config.theme.dirs.count(str(OVERRIDES)) == 1


def test_the_files_of_the_installed_material_are_found(tmp_path: Path) -> None:
    config = shop(tmp_path)
    wire(config)
    assert any((Path(folder) / config.theme["bl_style"]).is_file() for folder in config.theme.dirs)


def test_another_theme_is_refused_in_one_sentence(tmp_path: Path) -> None:
    with pytest.raises(PluginError, match=r"set `theme: \{name: material\}`"):
        wire(shop(tmp_path, theme={"name": "mkdocs"}))


def test_a_title_is_text_wherever_it_comes_from() -> None:
    env = Environment(autoescape=False)
    equip(env)
    template = env.from_string("{{ title | plain }}")
    assert template.render(title="Salt &amp; <em>acid</em>") == "Salt &amp; acid"  # from Markdown
    assert template.render(title="5 < 6 & more") == "5 &lt; 6 &amp; more"  # from a file


def test_plain_values_are_escaped_and_finished_html_is_not() -> None:
    page = environment().from_string('{% import "components.j2" as b %}{{ b.plain(items) }}')
    html = page.render(items=["<script>", Markup("<b>dry</b>")])
    assert "&lt;script&gt;" in html
    assert "<b>dry</b>" in html


def test_a_slip_in_a_template_is_no_silent_gap() -> None:
    with pytest.raises(UndefinedError):
        environment().from_string("{{ nothing_of_that_name }}").render()


def test_headings_of_a_page_made_as_html_reach_the_contents() -> None:
    toc = outline(
        '<h2 id="steps">The <em>steps</em></h2><h2 class="bl-ask__q" id="q1">Why?</h2><h2 id="end">End</h2>'
    )
    assert [(link.title, link.url) for link in toc] == [("The steps", "#steps"), ("End", "#end")]


@pytest.mark.parametrize(
    ("word", "expected"),
    [("Deck pattern", "deck-pattern"), ("pear & plum", "pear-plum"), ("Größe 3", "größe-3"), ("+", "none")],
)
def test_words_of_the_shop_become_tokens(word: str, expected: str) -> None:
    assert token(word) == expected
