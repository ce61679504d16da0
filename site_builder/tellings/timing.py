"""Moments of a recording, as transcripts and media fragments write them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

_CLOCK = re.compile(r"(?:(?P<h>\d{1,4}):)?(?P<m>\d{1,2}):(?P<s>\d{1,2})(?:[.,](?P<part>\d{1,6}))?")
_FRAGMENT = re.compile(r"t=(?:npt:)?(?P<start>[\d:.]*)(?:,(?P<end>[\d:.]+))?")
_SECONDS = re.compile(r"\d{1,7}(?:\.\d{0,6})?")


def clock_seconds(text: str) -> Fraction | None:
    """``01:02:03.400`` or ``02:03,4`` in seconds; None where it is no such moment."""
    found = _CLOCK.fullmatch(text.strip())
    if found is None or int(found["m"]) > 59 or int(found["s"]) > 59:
        return None
    part = Fraction(int(found["part"]), 10 ** len(found["part"])) if found["part"] else Fraction(0)
    return int(found["h"] or 0) * 3600 + int(found["m"]) * 60 + int(found["s"]) + part


@dataclass(frozen=True, slots=True)
class Stretch:
    """From one moment to another, in seconds; no end: to the end of the recording."""

    start: Fraction
    end: Fraction | None = None

    def fragment(self) -> str:
        """As a temporal media fragment (W3C Media Fragments URI 1.0, 4.2.1): ``t=754.2,759``."""
        end = "" if self.end is None else f",{seconds_text(self.end)}"
        return f"t={seconds_text(self.start)}{end}"


def read_fragment(text: str) -> Stretch | None:
    """``t=754.2,759``, ``t=754.2``, ``t=,12``, ``t=12:34.2,12:39``; None where it is none, or ends before it begins."""
    found = _FRAGMENT.fullmatch(text.strip())
    if found is None or not (found["start"] or found["end"]):
        return None
    start = _moment(found["start"] or "0")
    end = None if found["end"] is None else _moment(found["end"])
    if start is None or (found["end"] is not None and (end is None or end <= start)):
        return None
    return Stretch(start, end)


def _moment(text: str) -> Fraction | None:
    return Fraction(text) if _SECONDS.fullmatch(text) else clock_seconds(text)


def seconds_text(seconds: Fraction) -> str:
    """Seconds with as many decimals as they have, at most three: ``754.2``."""
    return f"{float(seconds):.3f}".rstrip("0").rstrip(".")


def clock_text(seconds: Fraction) -> str:
    """As a listener reads it: ``4:03``, ``1:02:03``."""
    whole = int(seconds)
    hours, rest = divmod(whole, 3600)
    return f"{hours}:{rest // 60:02}:{rest % 60:02}" if hours else f"{rest // 60}:{rest % 60:02}"
