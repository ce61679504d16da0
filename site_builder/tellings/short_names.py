"""``mil``: a thousandth of an inch where people say *mils*; short for millimetre or millilitre elsewhere."""

from __future__ import annotations

import re
from dataclasses import replace

from site_builder.tellings.spoken import Spoken

_INCH = re.compile(r"\bmils\b|\ba mil is\b|\bmicrons?\b", re.IGNORECASE)
_METRIC = re.compile(
    r"\b(?:millimet\w+|centimet\w+|met(?:re|er)s?|lit(?:re|er)s?|kilos?|grams?|celsius|centigrade)\b", re.IGNORECASE
)
_LIQUID = re.compile(r"\b(?:lit(?:re|er)s?|pour|dissolved?|add|hardener|rennet|acid|water|solution)\b", re.IGNORECASE)


def said_short(text: str, one: Spoken) -> Spoken:
    """With the unit that ``mil`` most likely is, or with none: it is then asked for."""
    last = text[max(0, one.end - 12) : one.end + 8].lower()
    if one.unit != "mil" or (one.low == 1 and one.high is None) or "mils" in last or _INCH.search(text):
        return one
    begin = max(text.rfind(mark, 0, one.start) for mark in ".?!") + 1
    end = min((at for mark in ".?!" if (at := text.find(mark, one.end)) >= 0), default=len(text))
    if _LIQUID.search(text, begin, end):
        return replace(one, unit="mL", lent=True)
    return replace(one, unit="mm" if _METRIC.search(text) else "", lent=True)
