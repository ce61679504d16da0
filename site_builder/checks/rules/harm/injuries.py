"""Kinds of injury, told by the words that hazards and advice for an accident use for them.

The list is common practice of a metal shop: what first aid treats differently. A hazard that uses none of
these words is of no kind, and nothing is concluded from it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

_WORDS: Mapping[str, str] = {
    "a burn": r"burn\w*|scald\w*|molten",
    "something in the eye": r"eyes?|blind\w*",
    "a cut": r"cuts?|gash\w*|slash\w*|bleed\w*|severs?|severed",
    "a fire": r"fires?|flames?|alight|explod\w*|explosion",
    "breathing something bad": r"fumes?|vapours?|smoke|lungs?|breath\w*|suffocat\w*",
    "an electric shock": r"electric\w*|shocks?|live wires?",
    "something corrosive on the skin": r"acids?|caustic|corrosive|lye",
}

INJURIES: Mapping[str, re.Pattern[str]] = {
    kind: re.compile(rf"\b(?:{words})\b", re.IGNORECASE) for kind, words in _WORDS.items()
}
"""Of each kind, as it stands after "What is done first after …", the words by which it is known."""


def injuries_in(texts: Iterable[str]) -> Iterator[str]:
    """The kinds of injury that these texts speak of."""
    text = " ".join(texts)
    for kind, words in INJURIES.items():
        if words.search(text):
            yield kind
