"""Into the books, as far as they are filled in: who, what, the figures. Signing comes after, in `sign`."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from werkzeug.exceptions import NotFound
from werkzeug.wrappers import Response

from site_builder.bench.choice import Choice
from site_builder.bench.judged_readings import Against, against
from site_builder.bench.visit import Route, Visit
from site_builder.notebook.names import values_of
from site_builder.skills.holders import LEVELS
from site_builder.skills.proof_due import item_lines

VERDICT_ROWS = 12


def _person(visit: Visit, who: str) -> str:
    if who not in visit.reading.survey.notebook.living:
        raise NotFound()
    return who


def who_are_you(visit: Visit) -> Response:
    """The first thing a phone asks."""
    living = visit.reading.survey.notebook.living
    return visit.page("books/who.j2", people=[Choice(id_, visit.names.first(id_)) for id_ in living])


def what(visit: Visit, who: str) -> Response:
    """What is to be written down."""
    return visit.page("books/what.j2", who=_person(visit, who), ready=len([*_shown_to(visit, who)]))


def pieces(visit: Visit, who: str) -> Response:
    """Pieces made."""
    book = visit.reading.survey.notebook
    works = [Choice(id_, str(one.title)) for id_, one in book.procedures.items()]
    others = [Choice(id_, visit.names.first(id_)) for id_ in book.living if id_ != who]
    return visit.page("books/pieces.j2", who=_person(visit, who), works=works, others=others,
                      chosen=visit.request.args.get("work", ""))


def readings(visit: Visit, who: str) -> Response:
    """Which limit was measured."""
    _person(visit, who)
    return visit.page("books/limits.j2", who=who, limits=[*_limits(visit)])


def reading(visit: Visit, who: str) -> Response:
    """What the gauge said against one limit, told at once."""
    measured = visit.request.values.get("measured", "")
    limit = next((one for one in _limits(visit) if one.value == measured), None)
    if limit is None:
        raise NotFound()
    given = [one for one in visit.request.values.getlist("readings") if one.strip()]
    told = against(visit.reading.views, measured, given[-1:], _person(visit, who)) if given else Against()
    return visit.page("books/reading.j2", who=who, limit=limit, kept=given, against=told,
                      scale=against(visit.reading.views, measured, [], who))


def trial(visit: Visit, who: str) -> Response:
    """The same pieces judged by feel."""
    book = visit.reading.survey.notebook
    felt = []
    for id_, one in book.procedures.items():
        if one.feel or one.checks:
            felt.append(Choice(id_, str(one.title)))
        felt += [Choice(f"{id_}/{step.id}", str(one.title), str(check.good or step.do or ""))
                 for step in one.every_step if step.id is not None for check in (*step.feel, *step.checks)[:1]]
    others = [Choice(id_, visit.names.first(id_)) for id_ in book.living if id_ != who]
    return visit.page("books/trial.j2", who=_person(visit, who), felt=felt, others=others, rows=range(VERDICT_ROWS))


def incident(visit: Visit, who: str) -> Response:
    """It went wrong, or nearly."""
    book = visit.reading.survey.notebook
    works = [Choice(id_, str(one.title)) for id_, one in book.procedures.items()]
    everybody = [Choice(id_, visit.names.first(id_)) for id_ in book.living]
    return visit.page("books/incident.j2", who=_person(visit, who), works=works, everybody=everybody)


# ------------------------------------------------------------------ something shown


@dataclass(frozen=True, slots=True)
class Item:
    """An item of a checklist, and how it stands with one learner."""

    id: str
    show: str
    how: str
    told: str
    signed: str


def skills(visit: Visit, who: str) -> Response:
    """The skills with something to show."""
    _person(visit, who)
    survey = visit.reading.survey
    held = {id_: survey.holders.level(who, id_) for id_ in survey.notebook.skills}
    rows = [Choice(id_, str(one.title), str(held[id_].level) if held[id_] is not None else "")  # type: ignore[union-attr]
            for id_, one in survey.notebook.skills.items()]
    return visit.page("books/skills.j2", who=who, skills=rows)


def checklist(visit: Visit, who: str, skill: str, number: int) -> Response:
    """One item of a checklist a screen; after the last, the level."""
    _person(visit, who)
    survey = visit.reading.survey
    known = survey.notebook.skills.get(skill)
    if known is None:
        raise NotFound()
    signers = [id_ for id_ in survey.holders.signers(skill) if id_ != who]
    items = [*_items(visit, who, skill)]
    context: dict[str, Any] = {
        "who": who, "skill": skill, "title": str(known.title), "number": number, "of": len(items),
        "done": sum(bool(one.signed) for one in items), "signers": signers,
    }
    if 1 <= number <= len(items):
        return visit.page("books/item.j2", item=items[number - 1], **context)
    if number != len(items) + 1:
        raise NotFound()
    held = survey.holders.level(who, skill)
    return visit.page("books/level.j2", levels=LEVELS, held=str(held.level) if held is not None else "", **context)


_HOW = {"practice": "By pieces made", "trial": "By a trial by feel", "measurement": "By measuring",
        "seen": "By looking on"}


def _items(visit: Visit, who: str, skill: str) -> Iterator[Item]:
    survey = visit.reading.survey
    known = survey.notebook.skills[skill]
    shown = survey.law.ledger.shown(who, skill)
    for one in known.checklist:
        if one.id is None:
            continue
        id_ = str(one.id)
        lines = [*item_lines(survey.law.evidence, known, {id_}, who, survey.today, ())]
        signed = shown.get(id_)
        by = f"{visit.names.first(str(signed.who))}, {signed.date}" if signed is not None else ""
        yield Item(id_, str(one.show), _HOW[str(one.evidence or "seen")],
                   "; ".join(visit.names.said(line.told) for line in lines), by)


def _shown_to(visit: Visit, who: str) -> Iterator[str]:
    """Skills of which something has begun and not all is signed."""
    survey = visit.reading.survey
    for person, skill in survey.law.evidence.begun:
        if person == who and any(not one.signed for one in _items(visit, who, skill)):
            yield skill


def _limits(visit: Visit) -> Iterator[Choice]:
    """Everything that can be measured against, by the work it belongs to."""
    for id_, one in visit.reading.survey.notebook.procedures.items():
        for value in values_of(one, "procedure"):
            if value.key != "limits" or (value.step is not None and value.step.id is None):
                continue
            step = f"{value.step.id}/" if value.step is not None else ""
            yield Choice(f"{id_}/{step}{value.name}", value.name, str(one.title))


ROUTES: tuple[Route, ...] = (
    ("/books", ("GET",), who_are_you),
    ("/books/<who>", ("GET",), what),
    ("/books/<who>/pieces", ("GET",), pieces),
    ("/books/<who>/readings", ("GET",), readings),
    ("/books/<who>/reading", ("GET", "POST"), reading),
    ("/books/<who>/trial", ("GET",), trial),
    ("/books/<who>/incident", ("GET",), incident),
    ("/books/<who>/skills", ("GET",), skills),
    ("/books/<who>/skills/<skill>/<int:number>", ("GET",), checklist),
)
