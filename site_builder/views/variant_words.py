"""A variant in a sentence: the shop names it as it likes, and English is made of the names only where they bear it."""

from __future__ import annotations

from site_builder.quantity.nouns import is_plural
from site_builder.views.typeset import typeset

# A name that begins so is a clause or is tied to another word, and takes neither article nor "every".
_NO_NOUN = frozenset(("what", "which", "who", "whose", "how", "where", "when", "whether", "why", "the", "a", "an",
                      "this", "that", "these", "those", "their", "its", "his", "her", "our", "my", "your"))  # fmt: skip
_LINKS = frozenset(("about", "above", "after", "around", "at", "before", "behind", "below", "beside", "between", "by",
                    "down", "for", "from", "in", "inside", "into", "like", "of", "off", "on", "onto", "out", "outside",
                    "over", "through", "to", "under", "up", "with", "within", "without"))  # fmt: skip


def named(dimension: str, value: str) -> str:
    """``deck pattern``, ``lathe tool``, ``edges cut in boards``, ``many (their number)``."""
    words = value.split()
    if words[-1:] == [dimension]:  # a lathe tool is a tool
        return typeset(value)
    if not _is_noun(dimension):
        return f"{typeset(value)} ({dimension})"
    if _LINKS.intersection(words):
        return f"{dimension} {typeset(value)}"
    return f"{typeset(value)} {dimension}"


def the(dimension: str, value: str) -> str:
    """``the deck pattern``, ``the edges cut in boards``, ``printed by hand``, ``many (their number)``."""
    takes_article = _is_noun(dimension) and not (_is_done(dimension) and _LINKS.intersection(value.split()))
    return f"the {named(dimension, value)}" if takes_article else named(dimension, value)


def name(dimension: str) -> str:
    """``the pattern``, ``their number``."""
    return f"the {dimension}" if _is_noun(dimension) else dimension


def every(dimension: str) -> str:
    """``every pattern``, ``all edges``, ``all`` where the name bears neither."""
    if not _is_noun(dimension) or _is_done(dimension):
        return "all"
    return f"all {dimension}" if is_plural(dimension) else f"every {dimension}"


def decided(dimension: str) -> str:
    """The opening of a sentence on when one chooses: ``The pattern is decided``."""
    if not _is_noun(dimension) or _is_done(dimension):
        return f"{dimension[:1].upper()}{dimension[1:]}: decided"
    return f"The {dimension} {'are' if is_plural(dimension) else 'is'} decided"


def _is_noun(dimension: str) -> bool:
    return dimension.split()[:1] != [] and dimension.split()[0] not in _NO_NOUN


def _is_done(dimension: str) -> bool:
    """Whether the name is itself something done to the piece (``printed``), which no article fits."""
    return " " not in dimension and dimension.endswith("ed")
