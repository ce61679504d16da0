from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.story_links import acting_links, outside_pictures


def check(analysis: Analysis) -> Iterator[Found]:
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


RULE = Rule(
    code="story-outside",
    level=Level.ERROR,
    summary="A story shows a picture from outside the notebook, or a link in it would run something.",
    reason=(
        "In thirty years the picture will be gone, and until then whoever keeps it sees who reads the handbook. "
        "A plain link outwards is no error: its address stands on the page as words."
    ),
    passes="""\
=== procedures/photos/lantern.svg
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30"/>
=== procedures/stories/history.md
# Our history

![The first lantern](../photos/lantern.svg)

The [harbour office](https://harbour.example/log) keeps the log.
""",
    fails="""\
=== procedures/stories/history.md
# Our history

![The first lantern](▸https://far.example/lantern.jpg)

![The second][second]

[second]: ▸//far.example/second.jpg

[Read on](▸javascript:alert(1))
""",
    check=check,
)
