"""The open questions as a sitting puts them: the weightiest first, for one who tells, in one piece of work."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from dataclasses import dataclass

from site_builder.amend import entry_at, look_up
from site_builder.bench.forms.daily import HEADS
from site_builder.bench.forms.fields import Fill, fields_of
from site_builder.bench.here import Reading
from site_builder.checks.answering import OF_CODE, Answer, By, Spot, answered, spot_of
from site_builder.checks.weight import Weighed, Weight
from site_builder.notebook.answered import Answered

EVERYTHING = "-all"
"""Names all work together in an address: one piece of work after the other, the weightiest first."""
A_QUESTION = 4
"""Minutes a question takes when two sit together (a guess)."""
_UNIT = re.compile(r"\d\s*(°C|°F|µm|mm|cm|kg|min|bar|rev/min|m/s|mL|wk|mo|in|lb|oz|h|s|d|g|L|y|%)(?!\w)")
_UNITS_OF = {
    "each": ("min", "s", "h"), "wait": ("min", "h", "d"), "scrap": ("%",), "refresh": ("mo", "y"), "age": ("y",),
    "rated speed": ("rev/min", "m/s"), "setup": ("min", "h"), "windows": ("min", "h", "d"), "clock": ("s", "min", "h"),
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
        """The units that belong there, those in use first."""
        if self.answer is None or self.spot is None or self.answer.by not in (By.VALUE, By.YES):
            return ()
        keys = [self.answer.inner, self.answer.key, *map(str, reversed(self.spot.path))]
        known = next((_UNITS_OF[key] for key in keys if key in _UNITS_OF), None)
        if known is not None:
            return known
        from_here = _UNIT.findall(str(look_up(self.spot.tree, self.spot.path))) if not self.answer.key else []
        found = tuple(dict.fromkeys(one for one in from_here if one))
        return (*found, *(("°F",) if found == ("°C",) else ()))


def open_questions(reading: Reading, about: str = "") -> Iterator[Open]:
    """All, or those about one thing, the weightiest first; of everything those of one thing stay together."""
    survey = reading.survey
    asked = reading.questions
    if about == EVERYTHING:
        first = {one.question.about: number for number, one in reversed([*enumerate(asked)])}
        asked = tuple(sorted(asked, key=lambda one: first[one.question.about]))
    for one in asked:
        question = one.question
        if about not in ("", EVERYTHING, question.about):
            continue
        spot = spot_of(survey, question.at)
        place = "/".join(map(str, spot.path)) if spot is not None else str(question.at.line)
        mark = hashlib.blake2b(f"{question.at.path}\0{question.code}\0{place}\0{question.text}".encode(),
                               digest_size=6).hexdigest()
        known = answer_of(question.code, spot) if spot is not None else None
        yield Open(mark, one, spot, known, answered(question.code, spot) if spot is not None else None)


_AT_THE_LINE = Answer("", By.LINE, "It is written where it stands")
_BY_FILL = {Fill.WORDS: By.WORDS, Fill.LINES: By.LINES, Fill.COUNT: By.COUNT, Fill.CADENCE: By.CADENCE,
            Fill.DAY: By.DAY, Fill.CHOICE: By.CHOICE, Fill.THING: By.THING, Fill.THINGS: By.THINGS}


def answer_of(code: str, spot: Spot) -> Answer:
    """What answers a question of this kind at this place."""
    known = OF_CODE.get(code, _AT_THE_LINE)
    if known.key or known.by is not By.VALUE:
        return known
    model = entry_at(spot.tree, spot.entry)
    key = model.MAIN if model is not None and spot.path == spot.entry else str(spot.path[-1]) if spot.path else ""
    field = next((one for one in fields_of(model) if one.key == key), None) if model is not None else None
    named = next((str(one) for one in reversed(spot.path) if one in HEADS), "")
    label = HEADS.get(named, "The value")
    by = _BY_FILL.get(field.fill, By.VALUE) if field is not None else By.VALUE
    return Answer("", by, label, field.of if field is not None and by in (By.CHOICE, By.THING, By.THINGS) else ())


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
        if not can_tell(one, teller):
            continue
        by_about.setdefault(one.weighed.question.about, []).append(one)
        total += 1
    room = max(1, minutes // A_QUESTION) if minutes else 10_000
    made = []
    if total > room or len(by_about) > 1:
        found = [one for one in for_teller(open_questions(reading, EVERYTHING), teller) if can_tell(one, teller)][:room]
        works = len({one.weighed.question.about for one in found})
        made.append(Offer(EVERYTHING, "The weightiest, one piece of work after the other" if works > 1
                          else found[0].weighed.sitting.title, len(found), tuple(_lines(found))))
    for about, ones in [*by_about.items()][:3]:
        taken = ones[:room]
        made.append(Offer(about, taken[0].weighed.sitting.title, len(taken), tuple(_lines(taken))))
    return made, total


def can_tell(one: Open, teller: str) -> bool:
    """Whether this one is among those who would know, or was named by somebody who did not."""
    who = one.weighed.sitting.who
    return not teller or not who or teller in who or (one.said is not None and one.said.whom == teller)


def _lines(found: list[Open]) -> Iterator[str]:
    words = {Weight.HARM: "about what can hurt somebody", Weight.LONE: "only one pair of hands can answer",
             Weight.SPOILED: "about what spoils a piece", Weight.DOUBT: "that a learner asks first",
             Weight.REST: "besides"}
    for weight in Weight:
        count = sum(one.weighed.weight is weight for one in found)
        if count:
            verb = "" if weight in (Weight.LONE, Weight.DOUBT, Weight.REST) else ("is " if count == 1 else "are ")
            yield f"{count} {verb}{words[weight]}"
