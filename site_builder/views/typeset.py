"""Numbers and signs as in print: a true minus, "15 to 25" for ``15..25``, no line break before a unit."""

from __future__ import annotations

import re

from site_builder.quantity.listed import UNITS

_MADE = (
    "mm²|cm²|m²|mm³|cm³|m³|Nm|N·m|ml|l|μm|rpm"
    "|g/cm³|kg/m³|m/s²|m/s2|(?:m|mm|ft|in|rev|L|l)/(?:s|min|h)|(?:h|d)/(?:day|wk|week|mo|y)"
)
_UNITS = "|".join((*(re.escape(row.symbol) for row in UNITS if not row.loose), _MADE))
_BEFORE_UNIT = re.compile(rf"(?<=\d) (?=(?:{_UNITS})(?![\w/]))")
_RANGE = re.compile(rf"(?<=\d)((?: ?(?:{_UNITS}))?) ?(?:(?<!\.)\.\.(?!\.)|…) ?(?=[-−+]?[A-Z]?\d)")
_MINUS = re.compile(r"(?<![\w.\-−)\]%°\U000f0000-\U000fffef])-(?=\.?\d)")
_APOSTROPHE = re.compile("(?<=[^\\W\\d_]|[\U000f0000-\U000fffef])'(?=[^\\W\\d_])")
_OWNERS = re.compile(r"(?<=s)'(?=\s+\w)")
_OPENING_QUOTE = re.compile(r"(?:^|[\s(])'")
_DASH = re.compile(r"(?<=\S) - (?=\S)(?!\d)")
_ISO_DAY = re.compile(r"(?<![\w-])(\d{4})-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])(?![\w-])")
MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
          "November", "December")


def typeset(text: str) -> str:
    """Numbers, ranges, days, minus signs, dashes and apostrophes as in print."""
    if "'" in text:
        text = _APOSTROPHE.sub("’", text)
        if not _OPENING_QUOTE.search(text):
            text = _OWNERS.sub("’", text)
    if ".." in text or "…" in text:
        text = _RANGE.sub(r"\1 to ", text)
    if "-" in text:
        text = _DASH.sub(" – ", _ISO_DAY.sub(_day, text))
        text = _MINUS.sub("−", text)
    return _BEFORE_UNIT.sub("\u00a0", text)


def _day(found: re.Match[str]) -> str:
    """``9 February 2026`` for ``2026-02-09``."""
    return f"{int(found[3])} {MONTHS[int(found[2]) - 1]} {found[1]}"
