"""Names of the shop as one token: for the places on a page, and for what a reader's choice is compared with."""

from __future__ import annotations

import re


def token(value: str) -> str:
    """Letters of any script, digits, hyphens.

    >>> token("Deck pattern, 2 kg")
    'deck-pattern-2-kg'
    """
    return re.sub(r"[\W_]+", "-", value.lower()).strip("-") or "none"
