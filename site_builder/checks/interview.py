"""Whom to ask what: the questions of a notebook as sittings with the people who know."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import PurePosixPath

from site_builder.checks.rules import BY_CODE
from site_builder.checks.survey import Survey
from site_builder.mastery.holders import LEVELS
from site_builder.notebook.finding import At, Finding, Level
from site_builder.notebook.gather import skills_of
from site_builder.notebook.model.limit import Limit, Window
from site_builder.notebook.model.procedure import Procedure
from site_builder.quantity import for_people

_YES = ("yes", "true")


@dataclass(frozen=True, slots=True)
class Question:
    """One thing that only somebody can tell, and the place of the notebook that waits for it."""

    text: str
    why: str
    at: At
    about: str
    """Id of the procedure, tool, person … it is about."""
    code: str
    said: tuple[tuple[str, str], ...] = ()
    """Who said what so far, where two answers stand side by side."""


@dataclass(frozen=True, slots=True)
class Sitting:
    """What to ask about one thing, and of whom: anybody of ``who`` can tell."""

    who: tuple[str, ...]
    """Ids of people; empty where the notebook names nobody who would know."""
    about: str
    title: str
    questions: tuple[Question, ...]
    probes: tuple[str, ...] = ()


def interview(survey: Survey, findings: Iterable[Finding]) -> tuple[Sitting, ...]:
    """The questions among the findings, those of one person together, one sitting a thing."""
    answers = _answers(survey)
    by_about: dict[str, list[Question]] = {}
    for finding in findings:
        if finding.level is Level.QUESTION:
            about = _about(survey, finding)
            by_about.setdefault(about, []).append(_question(finding, about, answers))
    sittings = [
        Sitting(_who(survey, about), about, _title(survey, about), tuple(questions))
        for about, questions in by_about.items()
    ]
    order = {id_: number for number, id_ in enumerate(survey.notebook.people)}
    return tuple(sorted(sittings, key=lambda s: [order.get(id_, 0) for id_ in s.who] or [len(order)]))


def _question(finding: Finding, about: str, answers: Mapping[At, tuple[tuple[str, str], ...]]) -> Question:
    rule = BY_CODE.get(finding.code)
    return Question(
        finding.message, rule.reason if rule is not None else "", finding.at, about, finding.code,
        answers.get(finding.at, ()),
    )


def _answers(survey: Survey) -> Mapping[At, tuple[tuple[str, str], ...]]:
    """Where several people said different things about one value: who said what."""
    found: dict[At, tuple[tuple[str, str], ...]] = {}
    for kind in (Limit, Window):
        for limit, _ in survey.index.of(kind):
            if limit.said and limit.is_ is None:
                found[limit.at] = tuple(
                    (str(one.who or ""), for_people(one.written.value).main)
                    for one in limit.said if one.written is not None
                )
    return found


def _about(survey: Survey, finding: Finding) -> str:
    """The id a finding names, or that of the file it stands in."""
    if finding.about:
        return finding.about
    if finding.at.path == "procedures/shop.yml" and survey.notebook.shop is not None:
        return str(survey.notebook.shop.shop)
    return PurePosixPath(finding.at.path).stem


def _title(survey: Survey, about: str) -> str:
    entry = survey.notebook.entry(about)
    if entry is None and survey.notebook.shop is not None and about == survey.notebook.shop.shop:
        entry = survey.notebook.shop
    return str(getattr(entry, "title", None) or getattr(entry, "name", None) or about)


def _who(survey: Survey, about: str) -> tuple[str, ...]:
    """Who teaches what the thing asks for; else the people with whom the chain of sign-offs begins."""
    teachers = dict.fromkeys(
        person for skill in _skills(survey, about) for person in survey.holders.able(skill, LEVELS[-1])
    )
    return tuple(teachers) or tuple(id_ for id_, p in survey.notebook.living.items() if p.founding in _YES)


def _skills(survey: Survey, about: str) -> Iterator[str]:
    """The skills with which a thing is done."""
    notebook = survey.notebook
    if about in notebook.skills:
        yield about
        return
    entry = notebook.entry(about)
    if isinstance(entry, Procedure):
        yield from map(str, skills_of(entry))
