"""Tools and materials of the notebook that are named in what was said."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from site_builder.tellings.nouns import STOPS, singular_of
from site_builder.tellings.numerals import numeral_at
from site_builder.tellings.tokens import Token, tokens

_BESIDES = re.compile(r",|\(| (?:for|of|with|in|on|from|to) ")
"""What follows in a name says more of the thing: a *film gauge* for zinc."""


@dataclass(frozen=True, slots=True)
class Mention:
    """A thing of the notebook and where it is named; ``whole`` where the full name was said."""

    id: str
    start: int
    end: int
    whole: bool


def mentions(text: str, things: Mapping[str, Sequence[str]]) -> tuple[Mention, ...]:
    """The things named in a text, in order. ``things``: names by id.

    A name counts when all its words are said together. Of a name of several words the last alone (`the belt` for
    `fine belt`) counts too, but only where it can mean one thing.
    """
    if not things:
        return ()
    words = [word for word in tokens(text) if word.is_word]
    spoken = [_plain(word.text) for word in words]
    names = [
        (id_, tuple(_plain(word.text) for word in tokens(name) if word.is_word))
        for id_, several in things.items()
        for name in several
    ]
    last: dict[str, set[str]] = {}
    for id_, several in things.items():
        for title in several:
            head = [word for word in tokens(_BESIDES.split(title, maxsplit=1)[0]) if word.is_word]
            if head and numeral_at(tokens(head[-1].text), 0) is None:
                last.setdefault(_plain(head[-1].text), set()).add(id_)
    found: list[Mention] = []
    taken: set[int] = set()
    for id_, name in sorted(names, key=lambda one: (-len(one[1]), one[0])):
        for i in range(len(words) - len(name) + 1 if name else 0):
            if tuple(spoken[i : i + len(name)]) == name and not taken.intersection(range(i, i + len(name))):
                found.append(_mention(words, id_, i, len(name), whole=True))
                taken.update(range(i, i + len(name)))
    for i, word in enumerate(spoken):
        ids = last.get(word, set())
        if i not in taken and len(ids) == 1 and word not in STOPS and len(word) > 2:
            found.append(_mention(words, next(iter(ids)), i, 1, whole=False))
    return tuple(sorted(found, key=lambda one: one.start))


def _mention(words: list[Token], id_: str, i: int, length: int, whole: bool) -> Mention:
    return Mention(id_, words[i].start, words[i + length - 1].end, whole)


def _plain(word: str) -> str:
    return singular_of(word) or word
