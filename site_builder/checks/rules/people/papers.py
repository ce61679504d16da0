"""Licences and certificates: until when each is good, and what rests when it is not."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from fractions import Fraction
from typing import NamedTuple

from site_builder.checks.rules.people.able import title_of
from site_builder.checks.survey import Survey
from site_builder.mastery.holders import LEVELS
from site_builder.notebook.finding import At
from site_builder.notebook.model.people import Person
from site_builder.notebook.model.small import Paper
from site_builder.notebook.spans import day_after, longest_span

_WORKS = LEVELS.index("beside") + 1


class RunningOut(NamedTuple):
    """A paper of somebody in the shop: its last day, and the titles of the skills that rest without it."""

    person: str
    name: str
    paper: str
    last: date
    skills: tuple[str, ...]
    at: At


def papers_of(survey: Survey) -> Iterator[RunningOut]:
    """The newest paper of each name that somebody in the shop holds, where the day it ends can be told."""
    for id_, person in survey.notebook.living.items():
        if not person.papers:
            continue
        asked = _asked_of(survey, id_)
        for name, paper in _newest(person).items():
            skills = asked.get(name, {})
            spans = [*skills.values(), _span(paper)]
            told = [span for span in spans if span is not None]
            if told and paper.date is not None:
                last = day_after(paper.date.value.last, min(told))
                yield RunningOut(id_, str(person.name), str(paper.paper), last, tuple(skills), paper.date.at)


def _newest(person: Person) -> dict[str, Paper]:
    """Of each name the paper with the latest date; a renewal is a line of its own."""
    found: dict[str, Paper] = {}
    for paper in person.papers:
        if paper.date is None:
            continue
        older = found.get(paper.paper.lower())
        if older is None or older.date is None or older.date.value.last <= paper.date.value.last:
            found[paper.paper.lower()] = paper
    return found


def _asked_of(survey: Survey, person: str) -> dict[str, dict[str, Fraction | None]]:
    """By name of paper, the skills of a person that ask for it and how long they let it be valid."""
    found: dict[str, dict[str, Fraction | None]] = {}
    for held in survey.holders.of_person(person):
        skill = survey.notebook.skills.get(held.skill)
        if skill is not None and held.rank >= _WORKS:
            for paper in skill.papers:
                found.setdefault(paper.paper.lower(), {})[title_of(survey, held.skill)] = _span(paper)
    return found


def _span(paper: Paper) -> Fraction | None:
    return None if paper.valid is None else longest_span(paper.valid.value)
