"""Sentences with gaps: ``filled("{} and {}", one, other)`` escapes what goes into them, as ``Markup.format`` does.

A page of ten steps fills a hundred such sentences; ``Markup.format`` reads the sentence anew each time and took
a tenth of the time of a page (measured, markupsafe 3.0).
"""

from __future__ import annotations

from functools import cache

from markupsafe import Markup, escape


def filled(words: str, *values: object) -> Markup:
    """Markup with each ``{}`` replaced by the next value; as many gaps as values. ``words`` is our own markup."""
    first, *rest = _pieces(words)
    parts = [first]
    for value, after in zip(values, rest, strict=True):
        parts.append(value if type(value) is Markup else escape(value))
        parts.append(after)
    return Markup("".join(parts))


@cache
def _pieces(words: str) -> tuple[str, ...]:
    return tuple(words.split("{}"))
