"""Sentences on pages that are still put together as markup: capitals, full stops, lists."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from markupsafe import Markup, escape

from site_builder.handbook.filled import filled

_TAGS = re.compile(r"(?:<[^>]*>)*")
_WORD = re.compile(r"[A-Z][^\s,.;:<]*")
_ENDS = (".", "!", "?", ":", "”", ".)", "?)")


def listed(items: Iterable[str | Markup], last: str = "and") -> Markup:
    """``a, b and c``."""
    parts = [escape(item) for item in items]
    if len(parts) < 2:
        return parts[0] if parts else Markup("")
    return filled(" {} ", last).join([Markup(", ").join(parts[:-1]), parts[-1]])


def capital(text: str | Markup) -> Markup:
    """The first letter large; a text that begins with a link keeps its link."""
    safe = str(escape(text))
    at = 0
    if safe.startswith("<"):
        found = _TAGS.match(safe)
        at = found.end() if found else 0
    return Markup(safe[:at] + safe[at : at + 1].upper() + safe[at + 1 :])


def lowered(text: str | Markup, proper: frozenset[str] = frozenset()) -> Markup:
    """The first letter small, within a link too, for a sentence that goes on from ours; names and P80 stay.

    ``proper`` are the names.
    """
    safe = escape(text)
    tags = _TAGS.match(safe)
    at = tags.end() if tags is not None else 0
    word = _WORD.match(safe, at)
    if word is None:
        return safe
    first = word[0].replace("’s", "").rstrip("’")
    is_name = first in proper or first == "I" or first.startswith("I’") or not (first[1:].islower() or first == "A")
    return safe if is_name else Markup(safe[:at] + safe[at].lower() + safe[at + 1 :])


def sentence(text: str | Markup) -> Markup:
    """The text with a full stop, unless it ends with a mark of its own."""
    safe = str(escape(text)).rstrip()
    bare = Markup(safe).striptags() if "<" in safe or "&" in safe else safe
    return Markup(safe if not safe or bare.endswith(_ENDS) else f"{safe}.")


def joined_sentences(parts: Sequence[str | Markup]) -> Markup:
    """Several sentences one after the other, each with its full stop and a large first letter."""
    return Markup(" ").join(capital(sentence(part)) for part in parts if part)
