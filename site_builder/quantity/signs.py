"""Signs that phones and word processors put in place of plain ones, and how they are read."""

from __future__ import annotations

import re
import unicodedata

from site_builder.quantity.errors import NotationError

MOST_LETTERS = 500
"""Nobody writes a longer value, rhythm, moment, trend or date. What reads them may look back from every letter."""

_FRACTIONS = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_BLANKS = "\u00a0\u2007\u2009\u202f"
_PHONE = re.compile(
    rf"""(?P<dash>[–—](?=\s*[-−–]?\.?[\d{_FRACTIONS}]))
    |(?P<minus>−(?=\s*\.?[\d{_FRACTIONS}]))
    |(?P<hyphen>\u2011)
    |(?P<dots>\s*…\s*)
    |(?P<fraction>[{_FRACTIONS}])
    |(?P<times>\s*×\s*)
    |(?P<degree>[º˚])
    |(?P<scale>[℃℉])
    |(?P<blank>[{_BLANKS}])""",
    re.VERBOSE,
)
# Only before a figure, at the start of a clause.
_COMPARED = re.compile(r"(?:(?<![^;,])|(?<=perhaps))\s*(?P<sign><=|>=|=<|=>|[≤≥<>])\s*(?=[-0-9[])")
_WORDS = {
    "<=": "max ",
    "=<": "max ",
    "≤": "max ",
    ">=": "min ",
    "=>": "min ",
    "≥": "min ",
    "<": "under ",
    ">": "over ",
}
# A dash after one of these, or after nothing, is a minus; after a figure or its unit it is a range.
_OPENERS = re.compile(
    r"(?:^|\.\.|[;,±/\[+…×]|(?<!\w)(?:perhaps|aim|about|min|max|over|under|from|to|or|per|plus|minus|x|of|in|every"
    r"|first|last|then|by))\s*$",
    re.IGNORECASE,
)
_ENDS_IN_NUMBER = re.compile(rf"[\d{_FRACTIONS}]\s*$")


def _plain(match: re.Match[str], before: str) -> str:
    sign, name = match.group(), match.lastgroup
    if name == "dash":
        # "5 min –3" has the minute before it, "min –3" the floor: only a number makes it the minute.
        unit_min = re.search(r"\d\s*min\s*$", before) is not None
        return "-" if not unit_min and _OPENERS.search(before) else ".."
    if name == "fraction":
        blank = "-" if _ENDS_IN_NUMBER.search(before) else ""
        return blank + unicodedata.normalize("NFKC", sign).replace("⁄", "/")
    if name == "scale":
        return unicodedata.normalize("NFKC", sign)
    return {"minus": "-", "hyphen": "-", "dots": "..", "times": " x ", "degree": "°", "blank": " "}[
        name or ""
    ]


def _rewrite(text: str, pattern: re.Pattern[str], where: list[int]) -> tuple[str, list[int]]:
    """Replace each sign; ``where`` says for each character where it stood in the text as given."""
    pieces: list[str] = []
    places: list[int] = []
    at = 0
    for match in pattern.finditer(text):
        pieces.append(text[at : match.start()])
        places.extend(where[at : match.start()])
        sign = match.groupdict().get("sign")
        new = f" {_WORDS[sign]}" if sign else _plain(match, text[: match.start()])
        pieces.append(new)
        places.extend([where[match.start()]] * len(new))
        at = match.end()
    pieces.append(text[at:])
    places.extend(where[at:])
    return "".join(pieces), places


def had_phone_signs(text: str) -> bool:
    """Whether the text holds a sign that is read as a plain one: ``–`` ``−`` ``…`` ``½`` ``×`` ``º``."""
    return not text.isascii() and _PHONE.search(text) is not None


def plain_signs(text: str) -> tuple[str, list[int] | None]:
    """The text in plain signs, and for each character its place in the text as given (None: unchanged).

    ``<= 3 mm`` and its like become ``max 3 mm``. Raises ``NotationError`` for a text of more than ``MOST_LETTERS``.
    """
    if len(text) > MOST_LETTERS:
        raise NotationError(
            "value-broken", f"{len(text)} letters stand here, and of a value {MOST_LETTERS} are read.", end=len(text),
        )
    phone = had_phone_signs(text)
    where = list(range(len(text) + 1)) if phone else None
    if where is not None:
        text, where = _rewrite(text, _PHONE, where)
    if _COMPARED.search(text):
        text, where = _rewrite(text, _COMPARED, where or list(range(len(text) + 1)))
    return text, where
