from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.story_links import html_in

_INSTEAD = {
    "img": "Show a picture as `![what is seen](../photos/its-name.jpg)`.",
    "a": "Write a link as `[[id]]`, or `[words](another-story.md)`.",
    "br": "Begin a new paragraph, or end the line with two blanks.",
    "b": "Write `**strong**`.", "strong": "Write `**strong**`.",
    "i": "Write `*emphasis*`.", "em": "Write `*emphasis*`.",
}


def check(analysis: Analysis) -> Iterator[Found]:
    for story in analysis.notebook.stories:
        for one in html_in(story):
            name = one.written.strip("<>/!? ").split(" ", maxsplit=1)[0].split("/", maxsplit=1)[0].lower()
            written = one.written if len(one.written) <= 40 else one.written[:39] + "…"
            yield Found(
                one.at, f"`{written}` is HTML; the page shows it as it is written here.",
                f"{_INSTEAD.get(name, 'Take it out')}{'' if name in _INSTEAD else '.'} "
                "What is meant to be seen as it is stands between backticks.",
            )


RULE = Rule(
    code="story-html",
    level=Level.WARNING,
    summary="HTML in a story.",
    reason="A page of the handbook holds nothing that acts or is fetched; so HTML is shown as the text it is.",
    passes="""\
=== procedures/stories/history.md
# Our history

The shop's first page said `<b>Lanterns</b>` in a *large* hand. 3 < 4, and a > b.

<!-- Edda still has to tell about the winter. -->
""",
    fails="""\
=== procedures/stories/history.md
# Our history

The shop's first page said ▸<b>Lanterns</b> in a *large* hand.

▸<script src="https://far.example/count.js"></script>
""",
    check=check,
)
