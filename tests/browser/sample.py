"""A little MkDocs site made with the theme alone: no notebook, no plugin, one page with every part on it.

The module is its own MkDocs hook: the functions named ``on_…`` do for the theme what the plugin does.
"""

from pathlib import Path

import every_block
import yaml
from jinja2 import Environment
from markupsafe import Markup
from mkdocs.commands.build import build
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.plugins import event_priority
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page
from PIL import Image

from site_builder.handbook import finder, theme
from site_builder.handbook.pages.render import TEMPLATES
from site_builder.handbook.prose_html import turn_to

SHEET = Path(__file__).parent / "sheet"
DRAWING = (
    '<svg class="bl-drawing" viewBox="0 0 {0} 120" width="{0}" height="120" role="img" aria-label="A bowl">'
    '<path class="l heavy" d="M20 20 C 60 130 {1} 130 {2} 20"/></svg>'
)
VALUES = {
    "drawing": Markup(DRAWING.format(560, 500, 540)),
    "narrow": Markup(DRAWING.format(320, 260, 300)),
    "markup": Markup,
    **every_block.VALUES,
}
PAGES = {"index": "Start here", "the-work/index": "The work", "the-work/every-part": "Every part once"}
MKDOCS = {
    "site_name": 'The "Bowl" & Co <Turners>',
    "theme": {"name": "material"},
    "plugins": ["offline", "search"],
    "hooks": [__file__],
    "markdown_extensions": ["tables"],
    "nav": [{"Start here": "index.md"}, {"The work": ["the-work/index.md"]}, {"Stories": "story.md"}],
}
STORY = "# How it began\n\nA *shed*.\n\n| Year | What |\n| --- | --- |\n| 1931 | A shed |\n"
STEPS = (
    finder.Part("rough", "Turn it round, from the rim inwards.", "Rest the heel first. It hisses."),
    finder.Part("true", "Bring the wall down to thickness.", "Calipers, every bowl."),
)


class Sheet(Page):
    """A page that is HTML from the beginning and never goes through Markdown."""

    def read_source(self, config: MkDocsConfig) -> None:  # noqa: ARG002
        self.markdown = ""
        name = self.file.src_uri.removesuffix(".md")
        self.meta = {"title": PAGES[name], "search": {"exclude": True}}

    def render(self, config: MkDocsConfig, files: Files) -> None:  # noqa: ARG002
        name = self.file.src_uri.removesuffix(".md")
        turn_to(every_block.Bowls())
        self.content = theme.environment(SHEET, TEMPLATES).get_template(f"{name}.j2").render(VALUES)
        self.toc = theme.outline(self.content)


def on_config(config: MkDocsConfig) -> MkDocsConfig:
    theme.wire(config)
    return config


def on_files(files: Files, config: MkDocsConfig) -> Files:
    for name in PAGES:
        file = File.generated(config, f"{name}.md", content="")
        Sheet(None, file, config)
        files.append(file)
    return files


def on_env(env: Environment, config: MkDocsConfig, files: Files) -> Environment:  # noqa: ARG001
    theme.equip(env)
    return env


@event_priority(-50)
def on_post_build(config: MkDocsConfig) -> None:
    url, title = "the-work/every-part.html", PAGES["the-work/every-part"]
    finder.write_words(Path(config.site_dir), [finder.page_record(url, title, "A trial.", STEPS, "The work")])


def build_sample(folder: Path) -> Path:
    """Build the site below ``folder`` with the search and offline plugins; return where it lies."""
    docs = folder / "docs"
    docs.mkdir(parents=True)
    Image.new("RGB", (900, 600), "#6b5a45").save(docs / "bowl.jpg")
    (docs / "story.md").write_text(STORY)
    written = folder / "mkdocs.yml"
    written.write_text(yaml.safe_dump(MKDOCS))
    config = load_config(str(written))
    config.plugins.on_startup(command="build", dirty=False)
    build(config)
    return folder / "site"
