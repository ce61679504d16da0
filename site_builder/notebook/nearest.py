"""The known word that a slip of the hand meant: letters swapped, dropped, doubled or beside the right one.

For few known words, as keys and levels; many are held against many by a ``Vocabulary`` that is made once.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from site_builder.notebook.vocabulary import Titled, vocabulary


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word that was meant; empty where none comes near enough to be told."""
    return vocabulary(tuple(map(str, known))).nearest(str(word))


def slip_of(word: str, known: Iterable[str]) -> str:
    """The known word of which this one is no more than a slip of a letter or two; empty where there is none."""
    return vocabulary(tuple(map(str, known))).slip_of(str(word))


def nearest_named(word: str, titles: Mapping[str, str]) -> str:
    """The id that was meant by an id with a slip in it, or by the title (of a person also the first name)."""
    return Titled(titles).nearest(word)


def did_you_mean(near: str) -> str:
    """`Did you mean ...? ` with a blank behind it; nothing where there is nothing near."""
    return f"Did you mean `{near}`? " if near else ""
