"""What a speaker leaves unsaid: the unit after the first time, the scale of degrees, what is counted."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import log2

from site_builder.tellings.cue import Cue
from site_builder.tellings.joined import Joined, join
from site_builder.tellings.quantities import quantities
from site_builder.tellings.run_on import bounded_by_neighbours, corrected, is_base, merged, run_on
from site_builder.tellings.scales import named_scale, scale_near, with_scale
from site_builder.tellings.short_names import said_short
from site_builder.tellings.spoken import Spoken
from site_builder.tellings.taking_back import TakingBack, takings_back
from site_builder.tellings.tokens import spelled
from site_builder.tellings.unit_words import TIME_UNITS, UNITS, family

_IN_UNIT = re.compile(
    r"\b(?:in|how many) (?P<unit>fahrenheit|celsius|centigrade|inches|millimetres|millimeters|microns|mils|thou|"
    r"pounds|grams|ounces|minutes|hours|seconds|days|weeks|degrees|percent|coats)\b[^.;!]*$",
    re.IGNORECASE,
)
_UNIT_AFTER = re.compile(
    r"[^.;!?]{0,60}[,.;] (?P<unit>fahrenheit|celsius|centigrade|inches|millimetres|millimeters|microns|mils|thou|"
    r"pounds|grams|"
    r"ounces|minutes|hours|seconds|percent)(?: i mean|,? of course|,? that is|,? mind|,? all of (?:them|it)|"
    r" always|,? not \w+)"
    r"(?!\w)",
    re.IGNORECASE,
)
"""``two point eight at the edge, millimetres I mean``."""
_TOPICS = {
    "temperature": r"""degrees? temperature hot hotter cold colder warm warmer cool cooler heat heated heating oven
        fahrenheit celsius
        centigrade thermometer boils? melts? freez\w+ simmer dew frost summer winter air weather outside surface""",
    "time": r"""wait waits waiting hours? minutes? seconds? days? longer overnight clock later soak rest cure cures
        cured drying
        sooner latest earliest recoat next-coat life early late lasts stays? stand stands morning afternoon evening
        time takes took""",
    "length": r"""thick thickness thin thinner wide width deep depth length diameter size gap across film tall high
        apart inch\w*
        millimet\w+ microns? mils? coat gauge short shorter wire""",
    "ratio": "percent per-cent humidity strength share proof moisture damp solids covered coverage full thinner",
    "rotation speed": "turns revs speeds? fast faster slow slower slowly step gear rpm",
    "pressure": "pressure bar psi air",
    "mass": r"weigh\w* heavy heavier grams? pounds? kilos? ounces?",
}
_TOPIC_WORDS = {topic: spelled("|".join(words.split()).replace("-", " ")) for topic, words in _TOPICS.items()}
_INCH_PARTS = (8, 16, 32, 64)
_DETERMINED = frozenset(
    (
        "the",
        "those",
        "these",
        "all",
        "us",
        "you",
        "them",
        "both",
        "other",
        "my",
        "his",
        "her",
        "our",
        "your",
        "their",
        "its",
        "we",
        "any",
        "every",
        "last",
        "next",
        "with",
        "in",
        "into",
    )
)
_BACK, _AHEAD = 8, 2
"""Cues within which a unit is borrowed, before and after."""
_FARTHEST = 6
"""What costs more is not lent: a wrong unit is worse than none."""
_NEIGHBOURS = 40
"""So many quantities before and after are looked at."""
_LIKE = 8
"""A number borrows a unit from one that is at most so many times larger or smaller."""


@dataclass(frozen=True, slots=True)
class Heard:
    """The quantities of each cue, their places within its words; and the corrections. In the order of the cues."""

    quantities: tuple[tuple[Spoken, ...], ...]
    takings_back: tuple[TakingBack, ...]


def hear(cues: Sequence[Cue], scale: str = "") -> Heard:
    """Read all cues of a telling together. ``scale`` is ``°C`` or ``°F`` where the shop's is known."""
    joined = join(cues)
    named = named_scale(joined.text)
    found = [with_scale(joined, one, named or scale) for one in quantities(joined.text)]
    found = [said_short(joined.text, one) for one in found]
    taken = takings_back(cues, joined, found)
    found = _with_units(joined, found, taken, named or scale or scale_near(joined.text, len(joined.text)))
    found = bounded_by_neighbours(joined, corrected(joined, found, taken))
    gone = {number for one in taken for number in (one.quantity, one.again)}
    kept = [
        replace(one, taken_back=n in gone) for n, one in enumerate(found) if not _is_left_out(joined, one, n, taken)
    ]
    by_cue: list[list[Spoken]] = [[] for _ in cues]
    for one in merged(joined, kept):
        cue = joined.cue_at(one.start)
        start = joined.starts[cue]
        by_cue[cue].append(replace(one, start=one.start - start, end=one.end - start))
    return Heard(tuple(map(tuple, by_cue)), tuple(taken))


def _with_units(joined: Joined, found: list[Spoken], taken: Sequence[TakingBack], scale: str) -> list[Spoken]:
    done = list(found)
    by_correction = {one.by: one.quantity for one in taken if one.by is not None and one.quantity is not None}
    for n, one in enumerate(found):
        if one.unit or one.form not in ("value", "first", "last"):
            continue
        lender = by_correction.get(n)
        if lender is not None and done[lender].unit:
            done[n] = _lent(one, done[lender])
        elif (near := run_on(joined, done, n)) is not None:
            done[n] = near
        elif not is_base(joined, one):
            done[n] = _borrowed(joined, done, n, scale)
    for new, old in by_correction.items():
        if not done[old].unit and done[new].unit:
            done[old] = _lent(done[old], done[new])
    for n, one in enumerate(done):
        if not one.unit and one.form == "value" and one.low.denominator in _INCH_PARTS and not one.decimal:
            done[n] = replace(one, unit="in", lent=True)
    return done


def _lent(one: Spoken, lender: Spoken) -> Spoken:
    return replace(one, unit=lender.unit, per=lender.per, lent=True)


def _borrowed(joined: Joined, found: list[Spoken], n: int, scale: str) -> Spoken:
    """With the unit of a number said alike before, of the same topic, or nearest: before it, or in the next words."""
    one = found[n]
    named = _IN_UNIT.search(joined.text, max(0, one.start - 60), one.start) or _UNIT_AFTER.match(joined.text, one.end)
    if named is not None and UNITS.get(named["unit"].lower(), "degrees") != "degrees":
        return replace(one, unit=UNITS[named["unit"].lower()], lent=True)
    again = _said_before(found, n)
    if again is not None and (one.high is not None or joined.text[: one.start].endswith("the ")):
        return replace(
            _lent(one, again), about=one.about or (again.about and again.high == one.high and again.high is not None)
        )
    if (
        n
        and found[n - 1].unit == "part"
        and one.start - found[n - 1].end < 40
        and joined.text.startswith(" of ", one.end)
    ):
        return replace(one, unit="part", lent=True)
    if _is_pronoun(joined, one) or (one.low == Fraction(1, 2) and one.high is None and not one.decimal):
        return one
    where = _no_duration(joined.text[max(0, one.start - 24) : one.start].lower(), one)
    if where is None and scale and _is_answered(joined, found, n):
        where = "at"
    if _HUMID.search(joined.text, *_sentence(joined, one)) and one.low <= 100 and where != "at":
        return replace(one, unit="%", lent=True)
    here = joined.cue_at(one.start)
    topics = _topics(joined, one)
    near = [
        (_distance(joined, here, one, other), other)
        for other in found[max(0, n - _NEIGHBOURS) : n + _NEIGHBOURS]
        if other is not one and other.unit and other.form in ("value", "first") and not other.more
    ]
    near = [(far, other) for far, other in near if far <= _BACK and other.unit != "time" and _like(one, other)]
    lasts = where is None and ("time" in topics or not topics)
    near = [
        (far, other) for far, other in near if other.unit not in TIME_UNITS or lasts or (far <= 1 and where is None)
    ]
    if scale and one.low >= 20 and _is_warm(where, near, topics):
        return replace(one, unit=scale, lent=True)
    if not near:
        return one
    alone = (
        one.low <= 4 and one.high is None and one.low.denominator == 1 and not (one.lead or one.about or one.decimal)
    )
    far, lender = min(near, key=lambda pair: (_cost(one, pair[0], pair[1], topics), pair[0]))
    too_far = _cost(one, far, lender, topics) > _FARTHEST
    if (
        too_far
        and where is not None
        and scale
        and one.low >= 20
        and any(_topic(one) == "temperature" for _, one in near)
    ):
        return replace(one, unit=scale, lent=True)
    if too_far or (alone and (far > 2 or (topics and _topic(lender) not in topics and far > 0.5))):
        return one
    return _lent(one, lender)


def _is_warm(where: str | None, near: Sequence[tuple[float, Spoken]], topics: Mapping[str, int]) -> bool:
    """Whether a bare number is most likely a temperature: said with ``at``, or of something hot or cold."""
    if where == "at":
        return not any(far == 0 and _topic(other) != "temperature" for far, other in near)
    if not topics or min(topics, key=topics.__getitem__) != "temperature":
        return False
    return not any(_topic(other) == "temperature" or (far == 0 and _topic(other) in topics) for far, other in near)


_TOLD_TO = re.compile(
    r"^(?: degrees)?(?:,| is| needs| takes| means| gives| wants| you (?:get|have|wait))[^.;?!]{0,16}$", re.IGNORECASE
)
_HUMID = re.compile(r"\bhumidity\b", re.IGNORECASE)
_AT = re.compile(r"(?:(?P<at>\bat )|\b(?:down|up) to |\bfrom |\b(?:it's|it is|is|reads|shows|show) )$")


def _is_answered(joined: Joined, found: list[Spoken], n: int) -> bool:
    """``Fifty is sixteen hours``: a bare number to which a time is told is none itself."""
    if n + 1 >= len(found):
        return False
    between = joined.text[found[n].end : found[n + 1].start]
    told = _TOLD_TO.match(between)
    return told is not None and (found[n + 1].unit in TIME_UNITS or (not found[n + 1].unit and "wait" in told[0]))


def _no_duration(before: str, one: Spoken) -> str | None:
    """What says that a bare number is no time that passes: ``at seventy``, ``down to two hundred``; else None."""
    found = _AT.search(before)
    return None if found is None or one.lead in ("min", "max") else "at" if found["at"] else "is"


def _cost(one: Spoken, far: float, other: Spoken, topics: Mapping[str, int]) -> float:
    """How little one number sounds like going on from another: cues between, sizes apart, another topic nearer."""
    a, b = float(abs(one.high or one.low) or 1), float(abs(other.high or other.low) or 1)
    mine = topics.get(_topic(other))
    apart = 0.0 if not topics else 4.0 if mine is None else 1.5 * (mine > min(topics.values())) - 1.5
    return 1.3 * far + 1.5 * abs(log2(a / b)) + apart


def _topics(joined: Joined, one: Spoken) -> dict[str, int]:
    """What the sentence speaks of, and how far (in letters) from the number; of one that says nothing, the one
    before.
    """
    begin, end = _sentence(joined, one)
    for first in (begin, max(joined.text.rfind(". ", 0, max(begin - 2, 0)), 0)):
        found = {
            topic: min(_away(match, one) for match in matches)
            for topic, words in _TOPIC_WORDS.items()
            if (matches := list(words.finditer(joined.text, first, end)))
        }
        if found:
            return found
    return {}


def _away(match: re.Match[str], one: Spoken) -> int:
    return one.start - match.end() if match.end() <= one.start else max(0, match.start() - one.end)


def _topic(other: Spoken) -> str:
    return "rotation speed" if other.unit == "rev/min" else family(other.unit)


def _distance(joined: Joined, here: int, one: Spoken, other: Spoken) -> float:
    """In cues; what comes after counts a little farther, and only for two cues."""
    there = joined.cue_at(other.start)
    if other.start > one.start:
        return there - here + 0.5 if there - here <= _AHEAD else 99
    return here - there


def _sentence(joined: Joined, one: Spoken) -> tuple[int, int]:
    """Where the sentence around it begins and ends."""
    begin = max(joined.text.rfind(mark, 0, one.start) for mark in (". ", "? ", "! ")) + 1
    ends = [at for mark in (". ", "? ", "! ") if (at := joined.text.find(mark, one.end)) >= 0]
    return begin, min(ends, default=len(joined.text))


def _said_before(found: list[Spoken], n: int) -> Spoken | None:
    """The same range said before, or the same large number alone or as an end of one."""
    one = found[n]
    for other in reversed(found[max(0, n - 5 * _NEIGHBOURS) : n]):
        if not other.unit or other.form != "value":
            continue
        if one.high is not None and (other.low, other.high) == (one.low, one.high):
            return other
        if one.high is None and one.low >= 100 and one.low in (other.low, other.high):
            return other
    return None


def _like(one: Spoken, other: Spoken) -> bool:
    a, b = abs(one.high or one.low) or 1, abs(other.high or other.low) or 1
    near = max(a, b) <= _LIKE * min(a, b)
    counted = other.unit not in UNITS.values() and "/" not in other.unit and " " not in other.unit
    if counted:
        return one.low.denominator == 1 and max(a, b) <= 3 * min(a, b)
    return near and not (other.unit in TIME_UNITS and one.low.denominator not in (1, 2, 4))


def _is_pronoun(joined: Joined, one: Spoken) -> bool:
    """``those two``, ``the three of you``: no figure to keep."""
    before = joined.text[: one.start].rsplit(None, 1)[-1:] or [""]
    after = joined.text[one.end :].split(None, 1)[:1] or [""]
    small = one.low <= 4 and one.high is None and not (one.lead or one.about or one.decimal)
    return (
        small
        and one.low.denominator == 1
        and (before[0].lower().strip(",.") in _DETERMINED or after[0] in ("was", "is", "are", "were", "of"))
    )


def _is_left_out(joined: Joined, one: Spoken, n: int, taken: Sequence[TakingBack]) -> bool:
    """A small number that nobody has said a unit of, and that corrects nothing, is a word of the sentence."""
    if one.unit or one.form not in ("value", "first", "last"):
        return False
    if any(n in (correction.quantity, correction.by) for correction in taken):
        return False
    said = one.lead or one.about or one.decimal or one.high is not None
    return one.low < Fraction(1) or _is_pronoun(joined, one) or (one.low <= 4 and not said)
