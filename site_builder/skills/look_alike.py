"""Ids that look like one another and are not the same: other capitals, or letters of the same shape."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable

# Small letters of the Greek and Cyrillic alphabets, and a few more, that a reader takes for Latin ones: a part of
# what the Unicode Technical Standard 39 calls confusable, from memory.
_SHAPES = str.maketrans({
    "а": "a", "в": "b", "с": "c", "ԁ": "d", "е": "e", "һ": "h", "і": "i", "ј": "j", "к": "k", "м": "m", "н": "h",
    "о": "o", "р": "p", "ѕ": "s", "т": "t", "у": "y", "х": "x", "ѵ": "v", "ԝ": "w", "α": "a", "ε": "e", "ι": "i",
    "κ": "k", "ν": "v", "ο": "o", "ρ": "p", "τ": "t", "υ": "u", "χ": "x", "ı": "i", "ɑ": "a", "ɡ": "g", "0": "o",
    "1": "l", "‐": "-", "‑": "-", "–": "-", "_": "-",
})


def look_alike(id_: str, known: Iterable[str]) -> str | None:
    """The known id that this one looks like and is not; None where there is none."""
    shape = _shape(id_)
    return next((str(one) for one in known if one != id_ and _shape(one) == shape), None)


def _shape(id_: str) -> str:
    plain = unicodedata.normalize("NFKD", id_).casefold().translate(_SHAPES)
    return "".join(letter for letter in plain if unicodedata.category(letter) not in ("Cf", "Mn"))
