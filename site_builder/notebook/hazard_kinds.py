"""Kinds of hazard, in one table: what first aid treats differently, and against what something can be worn.

The list is common practice of workshops. A hazard may say its ``kind``; where it does not, the words with which it is
told are looked for, and one that uses none of them is of no kind: nothing is concluded from it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import NamedTuple


class HazardKind(NamedTuple):
    """One kind of hazard to people."""

    word: str
    """As `kind` says it."""
    injury: str
    """As it stands after "What is done first after …"; empty where no first aid belongs to it."""
    words: str
    """The words, as a regular expression, by which hazards and advice for an accident speak of it."""
    is_worn_against: bool
    """Whether protection to wear is sold against it."""


HAZARD_KINDS: tuple[HazardKind, ...] = (
    HazardKind("burn", "a burn", r"burn\w*|scald\w*|molten", True),
    HazardKind("eye", "something in the eye", r"eyes?|blind\w*", True),
    HazardKind("cut", "a cut", r"cuts?|gash\w*|slash\w*|bleed\w*|severs?|severed", True),
    HazardKind("fire", "a fire", r"fires?|flames?|alight|explod\w*|explosion", False),
    HazardKind("breathing", "breathing something bad", r"fumes?|vapours?|smoke|lungs?|breath\w*|suffocat\w*", True),
    HazardKind("shock", "an electric shock", r"electric\w*|shocks?|live wires?", False),
    HazardKind("corrosive", "something corrosive on the skin", r"acids?|caustic|corrosive|lye", True),
    HazardKind("noise", "", r"noise|loud\w*|deaf\w*", True),
)
"""A kind is added here in one line."""

_SPOKEN = {kind: re.compile(rf"\b(?:{kind.words})\b", re.IGNORECASE) for kind in HAZARD_KINDS}
_BODY = re.compile(
    r"\b(?:eyes?|face|blind\w*|ears?|hearing|deaf\w*|noise|loud\w*|lungs?|breath\w*|dust|fumes?|vapours?"
    r"|hands?|fingers?|thumbs?|skin|arms?|forearms?|elbows?|knees?|legs?|foot|feet|toes?|head|hair)\b",
    re.IGNORECASE,
)
"""The parts of the body, and what reaches them, for which protection to wear is sold (common practice)."""


def injuries_in(texts: Iterable[str], said: Iterable[str] = ()) -> Iterator[str]:
    """The kinds of injury that are ``said``; where none is said, those of which the texts speak."""
    kinds, text = frozenset(said), " ".join(texts)
    for kind, words in _SPOKEN.items():
        if kind.injury and (kind.word in kinds if kinds else words.search(text)):
            yield kind.injury


def can_be_worn_against(text: str, said: Iterable[str] = ()) -> bool:
    """Whether a hazard strikes where something can be worn: by the kinds that are said, else by its words."""
    kinds = frozenset(said)
    if kinds:
        return any(kind.is_worn_against for kind in HAZARD_KINDS if kind.word in kinds)
    return _BODY.search(text) is not None
