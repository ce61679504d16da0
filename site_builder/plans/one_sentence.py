"""The answer of a season in one sentence: the date, the reason and the way out, from what was planned or was kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from site_builder.plans.words import apart, day_told


@dataclass(frozen=True, slots=True)
class Verdict:
    """What the answer is told from; what is not known is None or empty, and then not said.

    ``bound``: the day before which it cannot be done (None: never in these months). ``narrow`` with what eight hours
    more of it bring; ``ways`` out, the nearest first.
    """

    pieces: str
    due: date | None
    ends: date | None
    bound: date | None
    proven: bool
    narrow: str = ""
    brings: str = ""
    ways: Sequence[str] = ()
    cannot: Sequence[str] = ()
    """Wishes that cannot all be kept."""

    @property
    def in_time(self) -> bool | None:
        """Whether it can be in time: yes, no (proven), or None where neither is known."""
        if self.due is None:
            return None
        if self.ends is not None and self.ends <= self.due:
            return True
        return False if self.proven or self.bound is None or self.bound > self.due else None


def one_sentence(one: Verdict) -> str:
    """``Yes: 260 by 14 May 2027; by this plan …; scarcest are the hours of …``, or ``No, …``, or ``Not settled: …``."""
    return "; ".join(part for part in (_answer(one), _packed(one), _reason(one), _way(one)) if part) + "."


def _answer(one: Verdict) -> str:
    if one.due is None:
        return f"{one.pieces} pieces" if one.pieces else "It is not told by when"
    what = f"{one.pieces} by {day_told(one.due)}".strip()
    return {True: f"Yes: {what}", False: f"No, not {what}: that is proven",
            None: f"Not settled: {what}"}[one.in_time]


def _packed(one: Verdict) -> str:
    if one.ends is None:
        return "no plan was found" + (", and that there is none is not proven" if one.in_time is None else "")
    packed = f"by this plan the last is packed on {day_told(one.ends)}"
    if one.due is None:
        return packed
    if one.ends <= one.due:
        return f"{packed}, {apart((one.due - one.ends).days)} to spare" if one.ends < one.due else \
            f"{packed}, no day to spare"
    return f"{packed}, {apart((one.ends - one.due).days)} late"


def _reason(one: Verdict) -> str:
    if not one.narrow and one.cannot and not one.in_time:
        return f"what cannot all be kept: {', '.join(one.cannot[:3])}" + (" and more" if len(one.cannot) > 3 else "")
    if not one.narrow:
        return ""
    return f"scarcest are the {one.narrow}" + (
        f", and eight hours more of them bring the soonest end nearer by {one.brings}" if one.brings else "")


def _way(one: Verdict) -> str:
    """The nearest way out; that it can be later is said already."""
    if one.in_time or not one.ways:
        return ""
    way = next((way for way in one.ways if not way.startswith("Later")), one.ways[0]).rstrip(".")
    return f"a way out: {way[:1].lower()}{way[1:]}"
