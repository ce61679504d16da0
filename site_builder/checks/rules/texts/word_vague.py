from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from site_builder.checks.rule import Rule
from site_builder.checks.survey import Survey
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.harm import Point
from site_builder.notebook.model.judging import End
from site_builder.notebook.model.procedure import Step

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
_KEYS: Mapping[type, str] = {Step: "do", End: "sign", Point: "point"}


def check(survey: Survey) -> Iterator[Found]:
    for spots in (survey.index.plain, survey.index.texts):
        for spot in spots:
            if _KEYS.get(type(spot.place.entry)) == spot.key:
                word = _WORDS.search(spot.text)
                if word is not None and not _COMPARED.search(spot.text):
                    yield Found(
                        spot.text.at_letter(word.start()), _QUESTIONS[word[1].lower()],
                        "Write a figure under `settings`, or what one sees, hears or feels under `until`.",
                        spot.place.owner_id,
                    )


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
