"""Cutting a value into numbers, words and signs."""

from __future__ import annotations

import re

NUMBER, WORD, NAME, COMMA_NUMBER, SIGN = 1, 2, 3, 4, 5
"""What a token is: a number, a word or unit, a ``[name]``, a number with a comma in it, any other sign."""

_TOKEN = re.compile(
    r"""\s*(?:
    ((?:(?<![\w°%)\]])-)?                                  # a minus, unless after a word or number
      (?:[0-9]+(?:-|[ ]+)[0-9]+/0*[1-9][0-9]*(?![0-9]|\.[0-9])  # 1-1/2, 1 1/2
        |[0-9]+/0*[1-9][0-9]*(?![0-9]|\.[0-9])  # 1/8
        |[0-9]+(?:\.[0-9]+)?(?!,[0-9]|[0-9])))             # 25, 0.10
    |([^\W\d_]\w*(?:\([AC]\))?(?:[·/-]\w+)*|°(?:\s?[CF]\b)?(?:/\w+)*|%)
    |(\[[^\[\]]*\])
    |((?:(?<![\w°%)\]])-)?[0-9]+(?:,[0-9]+)+(?:\.[0-9]+)?)
    |(\.\.\.?|\S))""",
    re.VERBOSE,
)
_LONGEST_NUMBER = 60


class Tokens:
    """The tokens of a text as parallel lists, ended by an empty sign."""

    __slots__ = ("ends", "kinds", "starts", "text", "texts")

    def __init__(self, text: str) -> None:
        self.text = text
        self.kinds: list[int] = []
        self.texts: list[str] = []
        self.starts: list[int] = []
        self.ends: list[int] = []
        for match in _TOKEN.finditer(text):
            kind = match.lastindex or SIGN
            self.kinds.append(kind)
            self.texts.append(match[kind])
            start, end = match.span(kind)
            self.starts.append(start)
            self.ends.append(end)
        self.kinds.append(SIGN)
        self.texts.append("")
        self.starts.append(len(text))
        self.ends.append(len(text))

    def overlong(self) -> int | None:
        """The place of a number with more digits than anybody measures, or None."""
        if len(self.text) <= _LONGEST_NUMBER:
            return None
        for place, token in enumerate(self.texts):
            if self.kinds[place] != WORD and len(token) > _LONGEST_NUMBER and token[-1].isdigit():
                return place
        return None

    def words(self, first: int) -> str:
        """The text from this token to the end, with single blanks."""
        return " ".join(self.text[self.starts[first] :].split())
