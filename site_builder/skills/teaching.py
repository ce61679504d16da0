"""How many hours of teaching a skill takes: as the shop wrote it, else as the practice of earlier learners tells."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from math import ceil
from statistics import median

from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.people import Skill
from site_builder.notebook.way import span
from site_builder.skills.evidence import Evidence
from site_builder.skills.ledger import rank
from site_builder.skills.progress import Pace, batches_of, paces
from site_builder.skills.proof.until_able import time_until
from site_builder.skills.proof_due import least

LESSONS = 40 * 60
"""Minutes of teaching until alone, where neither the skill nor the books tell. An assumption: a week of somebody's
time."""
_ALONE = rank("alone")
_MINUTES = {"min": 1, "s": 1 / 60}


class Basis(StrEnum):
    """Where the hours of teaching come from."""

    WRITTEN = "the file of the skill"
    PRACTICE = "the practice of earlier learners"
    ASSUMED = "an assumption"


@dataclass(frozen=True, slots=True)
class Learned:
    """The work of one procedure as one learner learned it: its curve, and the pieces and minutes until able.

    ``quick``: whether the last of these pieces takes no longer than the time that is told for it.
    """

    person: str
    pace: Pace
    pieces: int
    quick: bool
    minutes: float
    low: float
    high: float | None


@dataclass(frozen=True, slots=True)
class Teaching:
    """Minutes of teaching from the first look until alone, and what they rest on.

    By practice: ``low`` and ``high`` are the limits, no ``high`` where it cannot be told how long it takes at most;
    ``learned`` is whose practice of what it is, and ``unpractised`` are the procedures of the skill of which none
    stands in the book and for which therefore nothing is counted.
    """

    minutes: int
    basis: Basis
    low: int | None = None
    high: int | None = None
    learned: tuple[Learned, ...] = ()
    unpractised: tuple[str, ...] = ()


def teaching_of(evidence: Evidence, today: date) -> Mapping[str, Teaching]:
    """The hours that each skill of a notebook takes, by what stands in it on a day."""
    learners: dict[str, list[str]] = {}
    for who, skill in evidence.begun:
        learners.setdefault(skill, []).append(who)
    return {id_: _teaching(evidence, skill, learners.get(id_, []), today)
            for id_, skill in evidence.notebook.skills.items()}


def _teaching(evidence: Evidence, skill: Skill, learners: list[str], today: date) -> Teaching:
    written = _minutes(skill.lessons)
    if written is not None:
        return Teaching(written, Basis.WRITTEN)
    practised: set[str] = set()
    seen: list[tuple[str, Pace]] = []
    for person in learners:
        batches = tuple(batches_of(evidence.practice(person, str(skill.skill), today)))
        practised.update(str(batch.entry.procedure) for batch in batches if batch.made)
        began = {str(batch.entry.procedure): batch.entry.level for batch in reversed(batches)}
        # who could do it alone when the book begins has not learned it there
        seen += [(person, pace) for pace in paces(batches, evidence)
                 if (level := began[pace.procedure]) is not None and rank(level) < _ALONE]
    learned: dict[str, list[Learned]] = {}
    for person, pace in seen:
        one = _learned(person, pace, _pieces(skill, len(practised)))
        if one is not None:
            learned.setdefault(pace.procedure, []).append(one)
    if not learned or learned.keys() < practised:  # of some of the work that is done nobody has told how it is learned
        return Teaching(LESSONS, Basis.ASSUMED)
    of_work = [_together(ones) for ones in learned.values()]
    highs = [high for _, _, high in of_work if high is not None]
    work = [one for one, skills in evidence.at_work.items() if skill.skill in skills]
    return Teaching(
        max(1, round(sum(middle for middle, _, _ in of_work))), Basis.PRACTICE,
        low=max(1, round(sum(low for _, low, _ in of_work))),
        high=max(1, round(sum(highs))) if len(highs) == len(of_work) else None,
        learned=tuple(one for ones in learned.values() for one in ones),
        unpractised=tuple(one for one in work if one not in practised and one in evidence.notebook.procedures),
    )


def _learned(person: str, pace: Pace, pieces: int | None) -> Learned | None:
    until = time_until(pace.fitted, pace.target, pieces) if pace.fitted is not None else None
    if until is None:
        return None
    size = _MINUTES[pace.unit]
    high = until.high * size if until.high is not None else None
    return Learned(person, pace, until.pieces, until.quick, until.took * size, until.low * size, high)


def _together(learned: list[Learned]) -> tuple[float, float, float | None]:
    """The hand in the middle; from the least that the quickest may take to the most that the slowest may."""
    highs = [one.high for one in learned if one.high is not None]
    high = max(highs) if len(highs) == len(learned) else None
    return median(one.minutes for one in learned), min(one.low for one in learned), high


def _pieces(skill: Skill, works: int) -> int | None:
    """The pieces that the proof asks for, of each of so many works alike."""
    asked = least(skill.proof.pieces) if skill.proof is not None else None
    return max(1, ceil(asked / works)) if asked is not None and works else None


def _minutes(told: Written | None) -> int | None:
    """Minutes of teaching: the middle where a span is told."""
    found = span(told) if told is not None else None
    return None if found is None else max(1, round((found[0] + found[1]) / 120))
