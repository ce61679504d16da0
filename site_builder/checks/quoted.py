"""Words of the notebook within a sentence of ours."""

from __future__ import annotations

_LONGEST = 90


def quoted(words: str) -> str:
    """Somebody's words in quotes, on one line, without the full stop, cut at a blank where they are long."""
    words = " ".join(words.split()).rstrip(".")
    if len(words) > _LONGEST:
        words = words[:_LONGEST].rsplit(" ", 1)[0].rstrip(",;.:") + " …"
    return f"“{words}”"
