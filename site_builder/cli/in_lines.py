"""A sign-off and what stands behind it, line by line, as it is shown before it is written."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from site_builder.analysis.analysis import Analysis
from site_builder.notebook.model.people import Skill
from site_builder.notebook.model.records import Incident, Measurement, Practice, Record, SignOff, Trial
from site_builder.skills.breach import Breach
from site_builder.skills.papers import papers_asked
from site_builder.skills.proof_due import item_lines, proof_lines


def sign_off_lines(surveyed: Analysis, entry: SignOff) -> Iterator[str]:
    """What would be signed, what was shown before, and the evidence for it."""
    notebook, law = surveyed.notebook, surveyed.law
    learner, skill_id = str(entry.learner), str(entry.skill)
    skill = notebook.skills.get(skill_id)
    title = str(skill.title) if skill is not None else skill_id
    yield f"Sign-off {entry.number}, {entry.date}"
    yield f"  {title}: {_name(surveyed, learner)}" + (f", {entry.level}" if entry.level is not None else "")
    yield f"  signed by {_name(surveyed, str(entry.who))}"
    held = law.ledger.held(learner, skill_id)
    now = f"{held.level} (sign-off {held.number}, {held.date})" if held is not None else "nothing"
    yield f"  holds now: {now}"
    if skill is None:
        return
    yield from _checklist(surveyed, entry, skill)
    yield "Evidence"
    for text in entry.evidence:
        record = law.evidence.record(str(text))
        yield f"  {text}" + (f": {in_one_line(record)}" if record is not None else "")
    if not entry.evidence:
        yield "  none is named"
    cited = law.evidence.cited(entry)
    day = entry.date.value.last if entry.date is not None else None
    items = set(map(str, entry.items))
    lines = [*item_lines(law.evidence, skill, items, learner, day, cited),
             *proof_lines(law.evidence, skill, learner, day, cited)]
    if lines:
        yield "What the skill asks for"
        yield from (f"  {'there' if line.enough else 'MISSING'}: {line.told}" for line in lines)
    if day is not None:
        yield from _papers(surveyed, learner, skill_id, day)
    for check in skill.proof.checks if skill.proof is not None else ():
        yield f"  for you to have seen: {check.good or check.do}"


def _papers(surveyed: Analysis, learner: str, skill: str, day: date) -> Iterator[str]:
    for asked in papers_asked(surveyed.notebook, learner, skill, day):
        if asked.wanting(day):
            gone = f"was good until {asked.last}" if asked.last is not None else "is not written in people.yml"
            yield f"  paper: “{asked.paper.paper}” of {_name(surveyed, learner)} {gone}"


def _checklist(surveyed: Analysis, entry: SignOff, skill: Skill) -> Iterator[str]:
    before = surveyed.law.ledger.shown(str(entry.learner), str(skill.skill))
    now = set(map(str, entry.items))
    if skill.checklist:
        yield "Checklist"
    for show in skill.checklist:
        if show.id is None:
            yield f"  has no id and cannot be signed: {show.show}"
        elif show.id in now:
            yield f"  NOW {show.id}: {show.show}"
        elif show.id in before:
            yield f"  signed before (sign-off {before[str(show.id)].number}) {show.id}"
        else:
            yield f"  not yet {show.id}: {show.show}"


def breach_lines(breaches: Sequence[Breach]) -> Iterator[str]:
    """What is against the law, and what to do about it."""
    for breach in breaches:
        yield f"  {breach.message} {breach.fix}"


def in_one_line(record: Record) -> str:
    """An entry of a book in one line."""
    parts = [str(record.date)] if record.date is not None else []
    if isinstance(record, Practice):
        parts += [f"{record.pieces} x {record.procedure}" if record.pieces is not None else str(record.procedure)]
        parts += [f"{name} {value}" for name, value in (("scrap", record.scrap), ("rework", record.rework),
                                                         ("took", record.took)) if value is not None]
    elif isinstance(record, Trial):
        parts += [str(record.felt), "; ".join(f"{piece} {verdict}" for piece, verdict in record.verdicts.items())]
    elif isinstance(record, Measurement):
        parts += [str(record.measured), "; ".join(map(str, record.readings))]
    elif isinstance(record, Incident):
        parts += [str(record.what)]
    elif isinstance(record, SignOff):
        parts += [f"{record.learner}, {record.skill}" + (f", {record.level}" if record.level is not None else "")]
    if record.who is not None:
        parts.append(f"by {record.who}")
    if record.note is not None:
        parts.append(str(record.note))
    return ", ".join(parts)


def _name(surveyed: Analysis, id_: str) -> str:
    person = surveyed.notebook.people.get(id_)
    return f"{person.name} ({id_})" if person is not None else id_
