"""Hard inputs for a regular expression: each of its repeats pumped, then a letter at which it must fail."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import product
from re import _constants as sre  # type: ignore[attr-defined]  # the only account of a pattern that there is
from re import _parser
from typing import Any

_TRIED = " a1.,-/:;[({<\"'`*_#|~=+%°\n\t\\AéxZ0!"
_ENDS = ("", "\0", "\n")
_MANY = 3

Hard = tuple[str, str, str]
"""Before, what is repeated, after."""


def hard_inputs(pattern: re.Pattern[Any]) -> list[Hard]:
    """All hard inputs for a pattern, each once."""
    text = pattern.pattern.decode("latin-1") if isinstance(pattern.pattern, bytes) else pattern.pattern
    tree = _parser.parse(text, pattern.flags & ~re.LOCALE)
    letters = [*dict.fromkeys([*_letters(tree), " ", "a", "1"])][:6]
    found: dict[Hard, None] = {}
    for before, pump in _pumps(tree, ""):
        for end in _ENDS:
            found[before, pump, end] = None
            found["", pump, end] = None
            found["", before + pump, end] = None
    for letter in letters:
        for end in ("", "\0"):
            found["", letter, end] = None
    for one, other in product(letters, letters):
        found["", one + other, "\0"] = None
    return [hard for hard in found if hard[1]]


def _pumps(tree: Any, before: str) -> Iterator[tuple[str, str]]:
    """(what comes before, one turn) of each repeat without an upper bound, the inner ones too."""
    for kind, arg in tree:
        if kind in (sre.MAX_REPEAT, sre.MIN_REPEAT, sre.POSSESSIVE_REPEAT):
            _, most, body = arg
            if most > 20:
                for turn in _samples(body):
                    yield before, turn
            yield from _pumps(body, before)
        elif kind is sre.SUBPATTERN:
            yield from _pumps(arg[3], before)
        elif kind is sre.ATOMIC_GROUP:
            yield from _pumps(arg, before)
        elif kind is sre.BRANCH:
            for way in arg[1]:
                yield from _pumps(way, before)
        elif kind in (sre.ASSERT, sre.ASSERT_NOT):
            yield from _pumps(arg[1], before)
        before += next(iter(_samples([(kind, arg)])), "")


def _samples(tree: Any) -> list[str]:
    """A few texts that the tree fits, short ones."""
    found = [""]
    for kind, arg in tree:
        found = [a + b for a in found for b in _one(kind, arg)][:_MANY * 2]
    return found


def _one(kind: Any, arg: Any) -> list[str]:
    if kind is sre.LITERAL:
        return [chr(arg)]
    if kind in (sre.NOT_LITERAL, sre.ANY, sre.IN):
        return [letter for letter in _TRIED if _fits(kind, arg, letter)][:_MANY] or _of_set(arg)
    if kind in (sre.MAX_REPEAT, sre.MIN_REPEAT, sre.POSSESSIVE_REPEAT):
        least, _, body = arg
        once = _samples(body)
        return [one * max(1, least) for one in once] if least else [*once, ""]
    if kind is sre.SUBPATTERN:
        return _samples(arg[3])
    if kind is sre.ATOMIC_GROUP:
        return _samples(arg)
    if kind is sre.BRANCH:
        return [text for way in arg[1] for text in _samples(way)[:2]][:_MANY * 3]
    return [""]


def _of_set(arg: Any) -> list[str]:
    return [chr(one[1] if one[0] is sre.LITERAL else one[1][0]) for one in arg
            if one[0] in (sre.LITERAL, sre.RANGE)][:1] if isinstance(arg, list) else [""]


def _fits(kind: Any, arg: Any, letter: str) -> bool:
    if kind is sre.ANY:
        return letter != "\n"
    if kind is sre.NOT_LITERAL:
        return ord(letter) != arg
    negated, fits = False, False
    for one, what in arg:
        if one is sre.NEGATE:
            negated = True
        elif one is sre.LITERAL:
            fits |= ord(letter) == what
        elif one is sre.RANGE:
            fits |= what[0] <= ord(letter) <= what[1]
        elif one is sre.CATEGORY:
            name = str(what)
            is_so = (letter.isdigit() if "DIGIT" in name else letter.isspace() if "SPACE" in name
                     else letter.isalnum() or letter == "_")
            fits |= is_so != ("NOT_" in name)
    return fits != negated


def _letters(tree: Any) -> Iterator[str]:
    for kind, arg in tree:
        if kind in (sre.LITERAL, sre.IN):
            yield from _one(kind, arg)[:2]
        elif kind in (sre.MAX_REPEAT, sre.MIN_REPEAT, sre.POSSESSIVE_REPEAT):
            yield from _letters(arg[2])
        elif kind is sre.SUBPATTERN:
            yield from _letters(arg[3])
        elif kind is sre.BRANCH:
            for way in arg[1]:
                yield from _letters(way)
        elif kind in (sre.ASSERT, sre.ASSERT_NOT):
            yield from _letters(arg[1])
