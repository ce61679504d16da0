"""Licences and certificates: until when each is good, and what rests when it is not."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import NamedTuple

from site_builder.analysis.analysis import Analysis
from site_builder.notebook.finding import At
from site_builder.notebook.model.small import Paper
from site_builder.notebook.spans import day_after
from site_builder.skills.papers import BESIDE, newest, span_of


class RunningOut(NamedTuple):
    """A paper of somebody in the shop: its last day, and the titles of the skills that rest without it."""

    person: str
    name: str
    paper: str
    last: date
    skills: tuple[str, ...]
    at: At


def papers_of(analysis: Analysis) -> Iterator[RunningOut]:
    """The newest paper of each name that somebody in the shop holds, where the day it ends can be told."""
    for id_, person in analysis.notebook.living.items():
        asked = _asked_of(analysis, id_) if person.papers else {}
        for name in dict.fromkeys(paper.paper.lower() for paper in person.papers):
            own = newest(person, name)
            if own is None or own.date is None:
                continue
            skills = asked.get(name, {})
            told = span_of(own, *skills.values())
            if told is not None:
                last = day_after(own.date.value.last, told)
                yield RunningOut(id_, str(person.name), str(own.paper), last, tuple(skills), own.date.at)


def _asked_of(analysis: Analysis, person: str) -> dict[str, dict[str, Paper]]:
    """By name of paper, the skills of a person that ask for it, and what they say of it."""
    found: dict[str, dict[str, Paper]] = {}
    for held in analysis.holders.of_person(person):
        skill = analysis.notebook.skills.get(held.skill)
        if skill is not None and held.rank >= BESIDE:
            for paper in skill.papers:
                found.setdefault(paper.paper.lower(), {})[str(skill.title)] = paper
    return found
