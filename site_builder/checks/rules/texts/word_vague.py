from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.harm import Point
from site_builder.notebook.model.judging import End
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.tree import Text

_QUESTIONS: Mapping[str, str] = {
    "some": "How much is “some”?",
    "a bit": "How much is “a bit”?",
    "a little": "How much is “a little”?",
    "enough": "How does one see that it is enough?",
    "as needed": "How does one see that it is needed?",
    "as usual": "What is usual here?",
    "carefully": "“Carefully”: what must not happen?",
    "properly": "How does one see that it is done properly?",
}
_WORDS = re.compile(rf"\b({'|'.join(_QUESTIONS)})\b(?! to\b)", re.IGNORECASE)
_COMPARED = re.compile(r"\blike (?:an?|the)\b", re.IGNORECASE)
"""`A little flared, like the bell of a horn` says how much, and so does `thin enough to give`."""


def check(analysis: Analysis) -> Iterator[Found]:
    for text, place in _texts(analysis):
        word = _WORDS.search(text)
        if word is not None and not _COMPARED.search(text):
            yield Found(
                text.at_letter(word.start()), _QUESTIONS[word[1].lower()],
                "Write a figure under `settings`, or what one sees, hears or feels under `until`.",
                place.owner_id,
            )


def _texts(analysis: Analysis) -> Iterator[tuple[Text, Place]]:
    for step, place in analysis.index.of(Step):
        if step.do is not None:
            yield step.do, place
    for end, place in analysis.index.of(End):
        if end.sign is not None:
            yield end.sign, place
    for point, place in analysis.index.of(Point):
        yield point.point, place


RULE = Rule(
    code="word-vague",
    level=Level.QUESTION,
    summary="A word that only somebody understands who can do it already.",
    reason="“Enough” is what the master's hand knows and the learner's does not.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Put grease on the belt.
    settings: {grease: 2 g}
    until: The belt shines from edge to edge.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Put ▸some grease on the belt.
    until: It shines ▸enough.
""",
    check=check,
)
