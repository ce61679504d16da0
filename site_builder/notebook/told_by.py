"""Who told a thing, and when: ``told by edda``, ``told by edda on 2026-11-28``."""

from __future__ import annotations

import re
from datetime import date

_FORM = re.compile(r"told by (?P<who>.+?)(?: on (?P<on>\d{4}-\d{2}-\d{2}))?")


def teller_of(source: str) -> tuple[str, str]:
    """The id or the words for who told it, and the day; empty where the source is another, or tells no day."""
    found = _FORM.fullmatch(source)
    return (found["who"], found["on"] or "") if found is not None else ("", "")


def told_by(who: str, on: str = "") -> str:
    """As it is written under ``source``; the day as 2026-11-28."""
    return f"told by {who}{f' on {on}' if on else ''}"


def is_day(text: str) -> bool:
    """Whether this is a day that there is."""
    try:
        return bool(text) and bool(date.fromisoformat(text))
    except ValueError:
        return False
