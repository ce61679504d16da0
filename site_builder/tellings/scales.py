"""Degrees of which scale: said once, and meant from then on."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from site_builder.tellings.joined import Joined
from site_builder.tellings.spoken import Spoken
from site_builder.tellings.unit_words import DEGREES

_SCALE = re.compile(r"\b(?:(?P<f>fahrenheit)|(?P<c>celsius|centigrade))\b", re.IGNORECASE)
_ANGLE = re.compile(
    r"\b(?:angle|angled|bevel|bevelled|tilt|tilted|lean|leaning|chamfer|taper|slope|slant|square|corner|"
    r"rotate|rotation|steep|pitch|(?:to|from|off) the (?:line|work|surface|seam|face|joint|grain|plate|vertical|"
    r"upright|"
    r"horizontal)|off square|from upright)\b",
    re.IGNORECASE,
)
_NUMBER = re.compile(
    r"\d|\b(?:\w+ty|\w+teen|hundred|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)\b", re.IGNORECASE
)
_REFUSED = re.compile(r"\b(?:not|never|no|don't|isn't|aren't|wrong|forget|instead of)\b(?: \w+){0,3} $", re.IGNORECASE)


def named_scale(text: str) -> str:
    """The scale that somebody names without a figure (``degrees are always Fahrenheit here``); empty where nobody
    does.
    """
    for sentence in re.split(r"[.?!;]", text):
        if _NUMBER.search(sentence):
            continue
        for found in _SCALE.finditer(sentence):
            if not _REFUSED.search(sentence[: found.start()]):
                return "°F" if found["f"] else "°C"
    return ""


def with_scale(joined: Joined, one: Spoken, everywhere: str) -> Spoken:
    """Degrees with the scale that is meant throughout, else the one named nearest before, else after; of an angle,
    where the words speak of one."""
    if not one.unit.startswith(DEGREES):
        return one
    here = joined.cue_at(one.start)
    begin = joined.starts[here]
    end = joined.starts[here + 1] if here + 1 < len(joined.starts) else len(joined.text)
    if one.unit == DEGREES and one.high is None and one.low <= 360 and _ANGLE.search(joined.text, begin, end):
        return replace(one, unit="° angle")
    scale = everywhere or scale_near(joined.text, end)
    return replace(one, unit=one.unit.replace(DEGREES, scale), lent=True) if scale else one


def scale_near(text: str, end: int) -> str:
    """The scale named last before a place, else the first after it; empty where none is."""
    named = list(_SCALE.finditer(text))
    before = [match for match in named if match.start() <= end]
    nearest = before[-1] if before else named[0] if named else None
    return "" if nearest is None else "°F" if nearest["f"] else "°C"


def convert(first: Spoken, second: Spoken) -> str | None:
    """The other scale, where a bare number is what the one before it comes to in that: 350 °F is 177."""
    if first.unit not in ("°F", "°C") or second.unit or first.high is not None or second.high is not None:
        return None
    if first.unit == "°F":
        return "°C" if abs((first.low - 32) * Fraction(5, 9) - second.low) <= 1 else None
    return "°F" if abs(first.low * Fraction(9, 5) + 32 - second.low) <= 1 else None
