"""What to say about a text that is no value, and what to write instead."""

from __future__ import annotations

import re
from difflib import get_close_matches

from site_builder.quantity.errors import NotationError
from site_builder.quantity.listed import SPOKEN_FOR_MADE, UNITS
from site_builder.quantity.units import RESERVED, UnitTable, unit_table

# Spoken or elsewhere customary, with what the notation says.
_SPOKEN_UNITS = {
    **{word: row.symbol for row in UNITS for word in row.spoken.split()},
    **{word: unit for unit, words in SPOKEN_FOR_MADE.items() for word in words.split()},
}
_DEGREES = frozenset((
    "°", "degree", "degrees", "deg", "C", "F", "c", "f", "celsius", "Celsius", "fahrenheit", "Fahrenheit",
    "°c", "°f", "centigrade", "degC", "degF",
))  # fmt: skip
_THOUSANDS = re.compile(r"-?\d{1,3}(,\d{3})+(\.\d+)?")


def spaced(text: str) -> str:
    """The text with single blanks."""
    return " ".join(text.split())


def spoken_unit(word: str) -> str:
    """The unit that a word means, as the notation writes it; empty where it means none."""
    return _SPOKEN_UNITS.get(word) or (word if word in unit_table(frozenset()).single else "")


def unit_missing(number: str, start: int, end: int, hint: str = "mm") -> NotationError:
    """A number without a unit; ``hint`` is the unit to show."""
    if len(number) > 1 and number.isdigit() and number[0] == "0":
        return a_name(number, start, end)
    fix = f"{number} {hint}"
    return NotationError("unit-missing", f"{number} what? Write `{fix}`.", fix=fix, start=start, end=end)


def a_name(text: str, start: int, end: int) -> NotationError:
    """A designation that begins with a digit."""
    fix = f"grade {text}"
    message = f"A number. If it is a name, put a word first: `{fix}`."
    return NotationError("value-broken", message, fix=fix, start=start, end=end)


def unit_unknown(number: str, word: str, table: UnitTable, start: int, end: int) -> NotationError:
    """A number followed by a word that is no unit."""
    if word in _DEGREES:
        letter = "F" if word.lstrip("°degDEG ").upper().startswith("F") else "C"
        return NotationError(
            "unit-missing",
            "°C or °F? They make two different accidents. "
            f"Write `{number} °C` or `{number} °F`; for an angle write `{number} ° angle`.",
            fix=f"{number} °{letter}" if word not in ("°", "degree", "degrees", "deg") else "",
            start=start,
            end=end,
        )
    known = _SPOKEN_UNITS.get(word)
    if known is None:
        if word in RESERVED:
            near = []
        elif (lower := _in_small_letters(word, table)) != word:
            near = [lower]
        else:
            near = get_close_matches(word, table.like(word), 12, 0.8) if len(word) > 3 else []  # `ga` is not `µg`
            near.sort(key=lambda name: (name[-1] != word[-1], len(name) != len(word), name[0] != word[0]))
        known = near[0] if near else None
    else:
        near = []
    if known is not None and (not near or len(word) <= 8):
        fix = f"{number} {known}"
        message = f"`{word}` is no unit we know. Write `{fix}`"
        message += "." if not near else f"; if you count in {word}, add the word under `words`."
        return NotationError("unit-unknown", message, fix=fix, start=start, end=end)
    designation = number.isdigit() and (len(number) >= 3 or number[0] == "0")
    if designation and not (word.endswith("s") and not word.endswith("ss")):
        return a_name(f"{number} {word}", start, end)
    message = f"`{word}` is no unit we know. If you count in {word}, add the word under `words`."
    return NotationError("unit-unknown", message, start=start, end=end)


def _in_small_letters(word: str, table: UnitTable) -> str:
    """``MM`` as ``mm``, ``MM/s`` as ``mm/s``; the word itself where that is no unit either."""
    parts = word.split("/")
    small = [part.lower() if part.lower() in table.single else part for part in parts]
    return "/".join(small) if all(part in table.single for part in small) else word


def decimal_comma(number: str, rest: str, start: int, end: int) -> NotationError:
    """``2,5 mm`` or ``1,000 mm``: read one way here and the other way there."""
    tail = f" {rest}" if rest else ""
    if _THOUSANDS.fullmatch(number):
        plain = number.replace(",", "") + tail
        message = f"Write thousands without a comma, `{plain}`, and a fraction with a point."
        return NotationError("decimal-comma", message, fix=plain, start=start, end=end)
    plain = number.replace(",", ".", 1).replace(",", "") + tail
    message = f"Write `{plain}`; write thousands without a comma."
    return NotationError("decimal-comma", message, fix=plain, start=start, end=end)


def range_hyphen(fix: str, start: int, end: int) -> NotationError:
    """A hyphen between two figures."""
    message = f"A hyphen may be a minus: write `{fix}`."
    return NotationError("range-hyphen", message, fix=fix, start=start, end=end)


def broken(message: str, start: int, end: int, fix: str = "") -> NotationError:
    """Anything that has no code of its own."""
    return NotationError("value-broken", message, fix=fix, start=start, end=end)
