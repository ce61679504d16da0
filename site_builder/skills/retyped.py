"""What an editor changes by itself in an entry: tabs for blanks, printers' quotes for straight ones.

The seal tells it for sure: with the signs put back, the entry says again what it said when it was sealed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

_QUOTES = str.maketrans({**dict.fromkeys("“”„‟", '"'), **dict.fromkeys("‘’‚‛", "'")})
_BLANKS = str.maketrans(dict.fromkeys("\u00a0\u202f\u2007", " "))
_TABS = ("  ", "    ", " ", "        ")


def retyped(text: str, says_what_was_sealed: Callable[[str], bool]) -> str:
    """What to put back in an entry that does not say what it said; empty where more than such signs were changed."""
    return next((fix for fix, before in _before(text) if before != text and says_what_was_sealed(before)), "")


def _before(text: str) -> Iterator[tuple[str, str]]:
    """What may have stood there, and how to bring it back."""
    quotes = "An editor put printers' quotes where straight ones stood: write \" and ' again."
    blanks = "An editor put blanks that do not break where ordinary ones stood: type them again."
    tabs = "An editor put tabs where blanks stood: write blanks again, two for each step in."
    yield quotes, text.translate(_QUOTES)
    yield blanks, text.translate(_BLANKS)
    for blank in _TABS if "\t" in text else ():
        yield tabs, text.replace("\t", blank)
        yield f"{tabs} {quotes}", text.replace("\t", blank).translate(_QUOTES)
