"""Whom to ask what: the questions of a notebook as sittings with the people who know."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from functools import cached_property
from pathlib import PurePosixPath

from site_builder.analysis.analysis import Analysis
from site_builder.checks.probes import probes
from site_builder.checks.rules import BY_CODE
from site_builder.notebook.finding import At, Finding, Level
from site_builder.notebook.gather import skills_of
from site_builder.notebook.model.limit import Limit, Window
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.shop import Change
from site_builder.notebook.model.things import Thing
from site_builder.quantity import as_said
from site_builder.skills.holders import LEVELS

_YES = ("yes", "true")
_DISPUTED = "value-disputed"
_PLAIN = ("question-noted", "value-ask")
"""Questions that need no reason: somebody wrote them down."""


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
    """Who (an id) said what so far, where several answers stand side by side."""


@dataclass(frozen=True, slots=True)
class Sitting:
    """What to ask about one thing, and of whom: anybody of ``who`` can tell."""

    who: tuple[str, ...]
    """Ids of people; empty where the notebook names nobody who would know."""
    about: str
    title: str
    questions: tuple[Question, ...]
    probes: tuple[str, ...] = ()
    """For a procedure: what to ask besides, while one sits together."""
    is_lone: bool = False
    """Only one person is able to do it alone."""


def interview(analysis: Analysis, findings: Iterable[Finding], *, probing: bool = True) -> tuple[Sitting, ...]:
    """The questions among the findings, one sitting a thing, those of the same people together.

    First come the people who will not be there for ever: those of whom even the youngest is old. Of each,
    first the work that nobody else can do, then the rest in the order of the notebook. Without ``probing`` no
    sitting has probes.
    """
    asking = _Asking(analysis)
    by_about: dict[str, list[Question]] = {}
    for finding in findings:
        if finding.level is Level.QUESTION:
            about = asking.about(finding)
            by_about.setdefault(about, []).append(asking.question(finding, about))
    sittings = [
        Sitting(asking.who(about), about, asking.title(about), tuple(questions),
                asking.probes(about) if probing else (), asking.is_lone(about))
        for about, questions in by_about.items()
    ]
    return tuple(sorted(sittings, key=asking.urgency))


class _Asking:
    """What has to be known of the shop to ask the right person."""

    def __init__(self, analysis: Analysis) -> None:
        self._survey = analysis
        notebook = analysis.notebook
        self._rank = {id_: number for number, id_ in enumerate(notebook.people)}
        shop_id = (str(notebook.shop.shop),) if notebook.shop is not None else ()
        ids = dict.fromkeys((*shop_id, *(id_ for shelf in notebook.shelves.values() for id_ in shelf)))
        self._order = {id_: number for number, id_ in enumerate(ids)}
        self._founders = tuple(id_ for id_, p in notebook.living.items() if p.founding in _YES)
        self._answers = _answers(analysis)

    def question(self, finding: Finding, about: str) -> Question:
        rule = BY_CODE.get(finding.code) if finding.code not in _PLAIN else None
        said = self._answers.get(finding.at, ()) if finding.code == _DISPUTED else ()
        return Question(
            finding.message, rule.reason if rule is not None else "", finding.at, about, finding.code, said
        )

    def about(self, finding: Finding) -> str:
        """The id a finding names, or that of the file it stands in."""
        if finding.about:
            return finding.about
        if finding.at.path == "procedures/shop.yml" and self._survey.notebook.shop is not None:
            return str(self._survey.notebook.shop.shop)
        return PurePosixPath(finding.at.path).stem

    def title(self, about: str) -> str:
        notebook = self._survey.notebook
        is_shop = notebook.shop is not None and about == notebook.shop.shop
        entry = notebook.shop if is_shop else notebook.entry(about)
        return str(getattr(entry, "title", None) or getattr(entry, "name", None) or about)

    def who(self, about: str) -> tuple[str, ...]:
        """Who teaches what the thing asks for; else the living founders; else the oldest in the shop."""
        teachers = dict.fromkeys(
            person for skill in dict.fromkeys(self._skills(about))
            for person in self._survey.holders.able(skill, LEVELS[-1])
        )
        known = tuple(teachers) or self._founders
        if known:
            return tuple(sorted(known, key=lambda id_: self._rank.get(id_, 0)))
        return tuple(sorted(self._survey.notebook.living, key=lambda id_: (self._born(id_), self._rank[id_]))[:1])

    def probes(self, about: str) -> tuple[str, ...]:
        if about not in self._survey.told:
            return ()
        return tuple(probe.text for probe in probes(self._survey, about))

    def urgency(self, sitting: Sitting) -> tuple[bool, date, list[int], bool, int]:
        """Those at the end go last: nobody known, the young, what several can do."""
        youngest = max((self._born(id_) for id_ in sitting.who), default=date.max)
        ranks = [self._rank.get(id_, 0) for id_ in sitting.who]
        last = len(self._order)
        return not sitting.who, youngest, ranks, not self.is_lone(sitting.about), self._order.get(sitting.about, last)

    def _born(self, person: str) -> date:
        """The day of birth, or the first day it may have been; who does not say it counts as young."""
        born = self._survey.notebook.people[person].born if person in self._survey.notebook.people else None
        return date.max if born is None else born.value.first

    def is_lone(self, about: str) -> bool:
        """Only one person is able to do it alone."""
        notebook, holders = self._survey.notebook, self._survey.holders
        if about in notebook.procedures:
            return len(holders.able_to_do(notebook.procedures[about])) == 1
        return about in notebook.skills and len(holders.able(about)) == 1

    def _skills(self, about: str) -> Iterator[str]:
        """The skills with which a thing is done, used or made."""
        notebook = self._survey.notebook
        if about in notebook.skills:
            yield about
            return
        entry = notebook.entry(about)
        if isinstance(entry, Thing) and entry.skill is not None:
            yield str(entry.skill)
            return
        for id_ in self._procedures(about):
            yield from self._skills_of[id_]

    @cached_property
    def _skills_of(self) -> Mapping[str, tuple[str, ...]]:
        return {id_: tuple(map(str, skills_of(own))) for id_, own in self._survey.notebook.procedures.items()}

    def _procedures(self, about: str) -> Iterator[str]:
        """The procedure itself, those that use a thing, work on a part, or were changed."""
        notebook = self._survey.notebook
        entry = notebook.entry(about)
        if isinstance(entry, Procedure):
            yield about
        elif isinstance(entry, Thing):
            yield from (id_ for id_, told in self._survey.told.items() if about in told.things)
        elif isinstance(entry, Change):
            yield from (str(one) for one in entry.covers if one in notebook.procedures)
        elif about in notebook.parts:
            yield from (id_ for id_, own in notebook.procedures.items() if about in notebook.parts_of(own))


def _answers(analysis: Analysis) -> Mapping[At, tuple[tuple[str, str], ...]]:
    """Where several people said different things about one value: who said what."""
    return {
        limit.at: tuple(
            (str(one.who or ""), as_said(one.written.value))
            for one in limit.said if one.written is not None
        )
        for kind in (Limit, Window) for limit, _ in analysis.index.of(kind) if limit.said
    }
