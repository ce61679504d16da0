"""Rules on the stories of the shop."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.picture_facts import inspect
from site_builder.notebook.picture_paths import PHOTOS
from site_builder.notebook.story_links import acting_links, files_in, html_in, opens_anywhere, outside_pictures


def story_link(analysis: Analysis) -> Iterator[Found]:
    root = analysis.notebook.root
    for story in analysis.notebook.stories:
        for link in files_in(story):
            what = "picture" if link.image else "file"
            if link.path.startswith(".."):
                yield Found(link.at, f"`{link.written}` leads out of the notebook.",
                            f"Put the {what} into the notebook and write its path from this file.")
            elif not _exists(root / link.path):
                fix = ("Write its path from this file." if link.image else
                        "Write its path from this file; a page of the handbook is linked as `[[id]]`.")
                yield Found(link.at, f"There is no {what} `{link.written}`.", fix)
            elif not link.image and (instead := _instead(analysis, root / link.path, link.path)):
                yield Found(link.at, f"`{link.written}` is no page of the handbook.", instead)


def _instead(analysis: Analysis, file: Path, path: str) -> str:
    """What to write for a file that does not go into the handbook as it is; empty if it does."""
    if path.endswith((".yml", ".yaml")):
        id_ = Path(path).stem
        thing = analysis.references.find(id_)
        return f"Link its page as `[[{id_}]]`." if thing is not None else "Write the words alone."
    if file.is_dir():
        return "Write the path of a file, or the words alone."
    known = inspect(file).kind != "unknown" or opens_anywhere(path) or path.lower().endswith(".md")
    if not known:
        return "Save it as PDF, which opens without any other program, and link that; or write the words alone."
    if inspect(file).kind != "unknown" or (path.startswith("procedures/") and not path.startswith(f"{PHOTOS}/")):
        return ""
    return "Put the file beside this story and write its path from here."


def _exists(file: Path) -> bool:
    try:
        return file.exists()
    except (OSError, ValueError):
        return False


STORY_LINK = Rule(
    "story-link", Level.ERROR, "A story links to a file, or shows a picture, that does not exist.",
    "The page would show a gap where the picture was meant to be.",
    """\
✓ === procedures/photos/lantern.svg
✓ <svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30"/>
=== procedures/stories/history.md
# Our history

![The first lantern](▸../photos/lantern.svg)

✓ The [second one](second.md) stood, cast in the [[foot]].
✗ The [second one](▸second.md) stood. The [shop](▸../shop.yml) has changed since.
=== procedures/shop.yml
shop: lanterns
title: Lanterns
✓ parts: {foot: {title: Foot}}
✓ === procedures/stories/second.md
✓ # The second lantern
""", story_link,
)


def story_outside(analysis: Analysis) -> Iterator[Found]:
    for story in analysis.notebook.stories:
        for one in outside_pictures(story):
            yield Found(
                one.at, f"`{_short(one.written)}` lies outside the notebook; the handbook fetches nothing.",
                "Save the picture under `procedures/photos/` and write its path from this file.",
            )
        for one in acting_links(story):
            yield Found(
                one.at, f"`{_short(one.written)}` is no address of a page.",
                "Link a thing of the notebook as `[[id]]`, another story as `[words](its-name.md)`, "
                "or write the words alone.",
            )


def _short(written: str) -> str:
    return written if len(written) <= 60 else written[:59] + "…"


STORY_OUTSIDE = Rule(
    "story-outside", Level.ERROR,
    "A story shows a picture from outside the notebook, or a link in it would run something.",
    "In thirty years the picture will be gone, and until then whoever keeps it sees who reads the handbook. A "
    "plain link outwards is no error: its address stands on the page as words.",
    """\
✓ === procedures/photos/lantern.svg
✓ <svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30"/>
=== procedures/stories/history.md
# Our history

✓ ![The first lantern](../photos/lantern.svg)
✗ ![The first lantern](▸https://far.example/lantern.jpg)

✓ The [harbour office](https://harbour.example/log) keeps the log.
✗ ![The second][second]

✗ [second]: ▸//far.example/second.jpg
✗\x20
✗ [Read on](▸javascript:alert(1))
✗\x20""", story_outside,
)


_INSTEAD = {
    "img": "Show a picture as `![what is seen](../photos/its-name.jpg)`.",
    "a": "Write a link as `[[id]]`, or `[words](another-story.md)`.",
    "br": "Begin a new paragraph, or end the line with two blanks.",
    "b": "Write `**strong**`.", "strong": "Write `**strong**`.",
    "i": "Write `*emphasis*`.", "em": "Write `*emphasis*`.",
}


def story_html(analysis: Analysis) -> Iterator[Found]:
    for story in analysis.notebook.stories:
        for one in html_in(story):
            name = one.written.strip("<>/!? ").split(" ", maxsplit=1)[0].split("/", maxsplit=1)[0].lower()
            written = one.written if len(one.written) <= 40 else one.written[:39] + "…"
            yield Found(
                one.at, f"`{written}` is HTML; the page shows it as it is written here.",
                f"{_INSTEAD.get(name, 'Take it out')}{'' if name in _INSTEAD else '.'} "
                "What is meant to be seen as it is stands between backticks.",
            )


STORY_HTML = Rule(
    "story-html", Level.WARNING, "HTML in a story.",
    "A page of the handbook holds nothing that acts or is fetched; so HTML is shown as the text it is.",
    """\
=== procedures/stories/history.md
# Our history

✓ The shop's first page said `<b>Lanterns</b>` in a *large* hand. 3 < 4, and a > b.
✗ The shop's first page said ▸<b>Lanterns</b> in a *large* hand.

✓ <!-- Edda still has to tell about the winter. -->
✗ ▸<script src="https://far.example/count.js"></script>
""", story_html,
)
