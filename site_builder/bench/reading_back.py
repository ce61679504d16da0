"""What was typed as a value, read back in words: in our notation, or as one says it."""

from __future__ import annotations

import re
from dataclasses import dataclass

from site_builder.quantity import NotationError, for_people, parse_cadence, parse_date, parse_value
from site_builder.quantity.value import Ask, Limits, Some, Value, Word
from site_builder.tellings.quantities import quantities

_LONGEST = 400
_NUMBER = r"-?(?:\d++(?:[./]\d++)?+|\.\d++)"
_BETWEEN = re.compile(
    rf"(?:from |between )?({_NUMBER}) ?(?:to|and|-|–|\.\.) ?({_NUMBER}) ?(.*)", re.IGNORECASE)
_AT_MOST = re.compile(r"(?:at most|up to|not over|not more than|no more than|never more than) (.+)", re.IGNORECASE)
_AT_LEAST = re.compile(r"(?:at least|not under|not less than|no less than|from) (.+)", re.IGNORECASE)
_UNIT_AT_END = re.compile(r"[\d.]\s*$")


@dataclass(frozen=True, slots=True)
class ReadBack:
    """What was understood. ``notation`` is what will be written; empty where nothing could be read."""

    notation: str = ""
    words: str = ""
    other: str = ""
    """The same in the other system of units."""
    wrong: str = ""
    mend: str = ""
    """What could be written instead."""


def read_back(
    text: str, unit: str = "", kind: str = "value", nouns: frozenset[str] = frozenset(),
) -> ReadBack:
    """Read what was typed; ``unit`` is the one that was chosen beside the box, for a figure without its own."""
    text = " ".join(text.split())
    if not text:
        return ReadBack(wrong="Nothing is written yet.")
    if len(text) > _LONGEST:
        return ReadBack(wrong="That is too long for a value. Write the figure alone.")
    if kind == "cadence":
        return _cadence(text)
    if kind == "day":
        return _day(text)
    first: NotationError | None = None
    for tried in _ways(text, unit):
        try:
            value = parse_value(tried, nouns, kind == "count")
        except NotationError as wrong:
            first = first or wrong
            continue
        if isinstance(value.what, Ask):
            return ReadBack(wrong="That says that it is not known. Choose one of the four below.")
        if isinstance(value.what, Word | Some):
            continue
        return _told(tried, value)
    spoken = [one for one in quantities(text if not unit or not _UNIT_AT_END.search(text) else f"{text} {unit}")
              if one.known]
    if len(spoken) == 1 and _is_all(text, spoken[0].start, spoken[0].end):
        try:
            return _told(spoken[0].notation, parse_value(spoken[0].notation))
        except NotationError:
            pass
    if first is not None:
        return ReadBack(wrong=_in_words(first), mend=first.fix if _is_value(first.fix) else "")
    return ReadBack(wrong=f"I cannot read “{text[:60]}” as a figure. Say it with figures, such as 12 to 30.")


def _ways(text: str, unit: str) -> list[str]:
    """The text as notation, the likeliest first."""
    between, most, least = _BETWEEN.fullmatch(text), _AT_MOST.fullmatch(text), _AT_LEAST.fullmatch(text)
    end = f" {unit}" if unit and _UNIT_AT_END.search(text) else ""
    if between is not None:
        return [f"{between[1]}..{between[2]} {between[3] or unit}".strip()]
    if most is not None:
        return [f"max {most[1]}{end}"]
    if least is not None:
        return [f"min {least[1]}{end}"]
    return [text + end, text] if end else [text]


def _told(notation: str, value: Value) -> ReadBack:
    shown = for_people(value)
    words = shown.main
    if isinstance(value.what, Limits) and not words:
        words = notation
    return ReadBack(notation, words, shown.other)


def _cadence(text: str) -> ReadBack:
    for tried in (text, text.lower()):
        try:
            parse_cadence(tried)
        except NotationError as wrong:
            found = wrong
            continue
        return ReadBack(tried, tried)
    return ReadBack(wrong=_in_words(found))


def _day(text: str) -> ReadBack:
    try:
        parse_date(text)
    except NotationError as wrong:
        return ReadBack(wrong=_in_words(wrong), mend=wrong.fix if re.fullmatch(r"[\d-]+", wrong.fix or "") else "")
    return ReadBack(text, text)


def _is_all(text: str, start: int, end: int) -> bool:
    """Whether nothing of weight stands besides the quantity."""
    return not re.search(r"[^\W_]", text[:start].removeprefix("from ").removeprefix("between ") + text[end:])


def _is_value(text: str) -> bool:
    try:
        return bool(text) and not isinstance(parse_value(text).what, Word | Ask | Some)
    except NotationError:
        return False


def _in_words(wrong: NotationError) -> str:
    return re.sub(r"`([^`]*)`", r"“\1”", wrong.message)


def same_value(one: str, other: str, nouns: frozenset[str] = frozenset()) -> bool:
    """Whether two ways of writing a value say the same."""
    a, b = (read_back(text, nouns=nouns) for text in (one, other))
    return bool(a.notation) and (a.words, a.other) == (b.words, b.other)
