"""The words, figures and signs of what was said, each with its place in the text."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

VULGAR = {
    "½": Fraction(1, 2),
    "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3),
    "¼": Fraction(1, 4),
    "¾": Fraction(3, 4),
    "⅕": Fraction(1, 5),
    "⅖": Fraction(2, 5),
    "⅗": Fraction(3, 5),
    "⅘": Fraction(4, 5),
    "⅙": Fraction(1, 6),
    "⅚": Fraction(5, 6),
    "⅛": Fraction(1, 8),
    "⅜": Fraction(3, 8),
    "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8),
}
LOOK_AHEAD = 16
"""So many empty tokens stand behind the last."""

_TOKEN = re.compile(
    rf"""(?P<number>\d{{1,15}}(?:,\d{{3}})*(?![\d])(?:\.\d{{1,12}})?|\.\d{{1,12}})
    |(?P<vulgar>[{"".join(VULGAR)}])
    |(?P<word>[^\W\d_]+(?:['’][^\W\d_]+)*|[°º][CF]?|[%°º]|\#)
    |(?P<sign>[-–—−,.;:?!()/…±+×"])""",
    re.VERBOSE,
)


def listed(text: str) -> frozenset[str]:
    """The words of a text, as a set."""
    return frozenset(text.split())


def spelled(text: str) -> re.Pattern[str]:
    """A pattern of whole words, written over several lines that each end with ``|``."""
    joined = "".join(line.strip() for line in text.splitlines())
    return re.compile(rf"(?<!\w)(?:{joined})(?!\w)", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Token:
    """One of them: ``text`` in small letters, ``raw`` as it stands."""

    text: str
    raw: str
    start: int
    end: int
    kind: str
    glued: bool
    """Nothing stands between it and the one before."""

    @property
    def is_word(self) -> bool:
        return self.kind == "word"


def tokens(text: str) -> list[Token]:
    """All of them in order, and empty ones behind, so that whoever looks ahead finds nothing."""
    found: list[Token] = []
    last = -1
    for match in _TOKEN.finditer(text):
        raw = match.group()
        plain = raw.lower().replace("’", "'").replace("º", "°")
        found.append(Token(plain, raw, match.start(), match.end(), match.lastgroup or "", match.start() == last))
        last = match.end()
    return found + [Token("", "", len(text), len(text), "end", False)] * LOOK_AHEAD
