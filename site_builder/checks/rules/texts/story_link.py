from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.picture_facts import inspect
from site_builder.notebook.picture_paths import PHOTOS
from site_builder.notebook.story_links import files_in, opens_anywhere


def check(analysis: Analysis) -> Iterator[Found]:
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


RULE = Rule(
    code="story-link",
    level=Level.ERROR,
    summary="A story links to a file, or shows a picture, that does not exist.",
    reason="The page would show a gap where the picture was meant to be.",
    passes="""\
=== procedures/photos/lantern.svg
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30"/>
=== procedures/stories/history.md
# Our history

![The first lantern](../photos/lantern.svg)

The [second one](second.md) stood, cast in the [[foot]].
=== procedures/shop.yml
shop: lanterns
title: Lanterns
parts: {foot: {title: Foot}}
=== procedures/stories/second.md
# The second lantern
""",
    fails="""\
=== procedures/stories/history.md
# Our history

![The first lantern](▸../photos/lantern.svg)

The [second one](▸second.md) stood. The [shop](▸../shop.yml) has changed since.
=== procedures/shop.yml
shop: lanterns
title: Lanterns
""",
    check=check,
)
