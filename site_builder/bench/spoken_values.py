"""A value as people say it."""

from __future__ import annotations

from site_builder.quantity import NotationError, for_people, parse_value
from site_builder.quantity.value import Ask, Word


def value_words(text: str) -> str:
    """A value as people say it; as written where it is none."""
    try:
        value = parse_value(text)
    except NotationError:
        return text
    if isinstance(value.what, Word | Ask):
        return text
    shown = for_people(value)
    return f"{shown.main or text}{f' ({shown.other})' if shown.other else ''}"
