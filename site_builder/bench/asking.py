"""The open questions as a sitting puts them: the weightiest first, for one who tells, in one piece of work."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from dataclasses import dataclass

from site_builder.bench.here import Reading
from site_builder.checks.answering import OF_CODE, Answer, By, Spot, answered, spot_of
from site_builder.checks.weight import Weighed, Weight
from site_builder.notebook.answered import Answered

A_QUESTION = 4
"""Minutes a question takes when two sit together (a guess)."""
_UNIT = re.compile(r"(°C|°F|µm|mm|cm|kg|min|bar|rev/min|m/s|mL|wk|mo|in|lb|oz|h|s|d|g|L|y|%)\b|%")
_UNITS_OF = {
    "each": ("min", "s", "h"), "wait": ("min", "h", "d"), "scrap": ("%",), "refresh": ("mo", "y"), "age": ("y",),
    "rated speed": ("rev/min", "m/s"), "setup": ("min", "h"),
}


@dataclass(frozen=True, slots=True)
class Open:
    """One open question that can be answered here, or at the line."""

    id: str
    weighed: Weighed
    spot: Spot | None
    answer: Answer | None
    said: Answered | None
    """What somebody has said instead of an answer."""

    @property
    def text(self) -> str:
        return self.weighed.question.text

    @property
    def is_harm(self) -> bool:
        return self.weighed.weight is Weight.HARM

    @property
    def units(self) -> tuple[str, ...]:
        """The units that belong there, the one in use first."""
        if self.answer is None or self.spot is None or self.answer.by not in (By.VALUE, By.YES, By.NAMED):
            return ()
        key = self.answer.inner or self.answer.key or str(self.spot.path[-1] if self.spot.path else "")
        if key in _UNITS_OF:
            return _UNITS_OF[key]
        from_here = _UNIT.findall(str(self.spot.stands)) if not self.answer.key else []
        found = tuple(dict.fromkeys(one for one in from_here if one))
        return (*found, *(("°F",) if found == ("°C",) else ()))


def open_questions(reading: Reading, about: str = "") -> Iterator[Open]:
    """All, or those about one thing; the weightiest first."""
    survey = reading.survey
    for one in reading.questions:
        question = one.question
        if about and question.about != about:
            continue
        spot = spot_of(survey, question.at)
        place = "/".join(map(str, spot.path)) if spot is not None else str(question.at.line)
        mark = hashlib.blake2b(f"{question.at.path}\0{question.code}\0{place}\0{question.text}".encode(),
                               digest_size=6).hexdigest()
        known = OF_CODE.get(question.code) if spot is not None else None
        yield Open(mark, one, spot, known, answered(question.code, spot) if spot is not None else None)


def for_teller(found: Iterator[Open], teller: str) -> Iterator[Open]:
    """Without what this one has answered already, and without what was handed to somebody else."""
    for one in found:
        if one.answer is None or (one.said is not None and one.said.who == teller and one.said.whom != teller):
            continue
        if one.said is None or not one.said.whom or one.said.whom == teller:
            yield one


@dataclass(frozen=True, slots=True)
class Offer:
    """A piece of work whose questions fit into the time."""

    about: str
    title: str
    count: int
    lines: tuple[str, ...]


def offers(reading: Reading, teller: str, minutes: int) -> tuple[list[Offer], int]:
    """What one may begin with, the weightiest first, and how many questions wait besides."""
    by_about: dict[str, list[Open]] = {}
    total = 0
    for one in for_teller(open_questions(reading), teller):
        if teller and one.weighed.sitting.who and teller not in one.weighed.sitting.who and (
                one.said is None or one.said.whom != teller):
            continue
        by_about.setdefault(one.weighed.question.about, []).append(one)
        total += 1
    room = max(1, minutes // A_QUESTION) if minutes else 10_000
    made = []
    for about, ones in [*by_about.items()][:3]:
        taken = ones[:room]
        made.append(Offer(about, taken[0].weighed.sitting.title, len(taken), tuple(_lines(taken))))
    return made, total - sum(one.count for one in made)


def _lines(found: list[Open]) -> Iterator[str]:
    words = {Weight.HARM: "about what can hurt somebody", Weight.LONE: "only one pair of hands can answer",
             Weight.SPOILED: "about what spoils a piece", Weight.DOUBT: "that a learner asks first",
             Weight.REST: "besides"}
    for weight in Weight:
        count = sum(one.weighed.weight is weight for one in found)
        if count:
            verb = "" if weight in (Weight.LONE, Weight.DOUBT, Weight.REST) else ("is " if count == 1 else "are ")
            yield f"{count} {verb}{words[weight]}"
