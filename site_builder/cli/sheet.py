"""A checklist signed on paper, brought into the book of sign-offs item by item."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

import click

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.cli.entering import Refused, day_given, may_write, say_written, signer_for
from site_builder.cli.signing import KIND, asked_evidence, judged, one_of, tried_entry, written
from site_builder.notebook.model.people import Show, Skill
from site_builder.notebook.model.records import SignOff
from site_builder.skills.breach import Article
from site_builder.skills.entry_text import Value
from site_builder.skills.initials import initials, meant_by
from site_builder.skills.keys import Signer
from site_builder.skills.proof_due import item_lines
from site_builder.skills.sheet_code import CodeProblem, skill_of


@dataclass(frozen=True, slots=True)
class Given:
    """What was given by options; the rest is asked, or with ``yes`` stays out."""

    learner: str | None
    who: str | None
    items: tuple[str, ...]
    date: str
    evidence: tuple[str, ...]
    override: str | None
    note: str | None
    key: Path | None
    yes: bool


@dataclass(frozen=True, slots=True)
class Signed:
    """One line of the sheet: the item, who signed it, and the day on paper."""

    show: Show
    who: str
    on: str


def from_sheet(root: Path, surveyed: Analysis, code: str, given: Given) -> None:
    """Enter what was signed on a sheet. Every entry is tried before the first is written. Raises Refused."""
    try:
        skill = skill_of(code, surveyed.notebook.skills)
    except CodeProblem as problem:
        raise Refused(str(problem)) from None
    click.echo(f"Sheet {code.strip().upper()}: {skill.title}")
    learner = one_of("Who is the learner on the sheet", given.learner, [*surveyed.notebook.people], given.yes,
                     "--learner")
    lines = _given(surveyed, skill, learner, given) if given.items else _asked(surveyed, skill, learner, given)
    if not lines:
        raise Refused("Nothing new is signed on this sheet. Nothing was written.")
    entries, tried_on = [], surveyed
    for line in sorted(lines, key=lambda one: one.on):
        fields, record = _tried(tried_on, skill, learner, line, code, given)
        entries.append(fields)
        tried_on = _with(tried_on, record)
        for words in _in_lines(tried_on, skill, line, record):
            click.echo(words)
    may_write(given.yes)
    # every key is opened before the first entry is written: a wrong passphrase must not leave half a sheet behind
    signers: dict[str, Signer | None] = {
        who: signer_for(surveyed, who, given.key) for who in dict.fromkeys(str(fields["who"]) for fields in entries)
    }
    for fields in entries:
        who = str(fields["who"])
        say_written(KIND, written(root, surveyed, fields, signers[who]))
        surveyed = analysis(root, surveyed.today)


# --- what stands on the sheet -----------------------------------------------------------------------------


def _given(surveyed: Analysis, skill: Skill, learner: str, given: Given) -> list[Signed]:
    """The items named by options, all signed by one hand on one day."""
    if given.who is None:
        raise click.UsageError("--who is missing: whose initials stand beside these items?")
    who = _person(surveyed, given.who)
    shown = {str(show.id): show for show in skill.checklist if show.id is not None}
    before = surveyed.law.ledger.shown(learner, str(skill.skill))
    for item in given.items:
        if item not in shown:
            raise Refused(f"`{item}` is no item of this checklist. It has: {', '.join(shown)}.")
        if item in before:
            raise Refused(f"`{item}` is signed already, by sign-off {before[item].number}.")
    return [Signed(shown[item], who, given.date) for item in dict.fromkeys(given.items)]


def _asked(surveyed: Analysis, skill: Skill, learner: str, given: Given) -> list[Signed]:
    """Every item that is not in the book yet: whose initials stand there, and which day."""
    if given.yes:
        raise click.UsageError("--item is missing: with --yes the items, --who and --learner are given as options.")
    before = surveyed.law.ledger.shown(learner, str(skill.skill))
    lines: list[Signed] = []
    last = given.date
    for number, show in enumerate(skill.checklist, 1):
        click.echo(f"{number}. {show.show}")
        if show.id is None:
            click.echo("   It has no id in the notebook and cannot be entered.")
        elif str(show.id) in before:
            click.echo(f"   In the book already: sign-off {before[str(show.id)].number}.")
        else:
            who = _ask_initials(surveyed)
            if who:
                last = _ask_day(surveyed, last)
                lines.append(Signed(show, who, last))
    return lines


def _ask_initials(surveyed: Analysis) -> str:
    while True:
        text = str(click.prompt("   Initials (nothing: not signed)", default="", show_default=False)).strip()
        if not text:
            return ""
        try:
            return _person(surveyed, text)
        except Refused as problem:
            click.echo(f"   {problem}")


def _person(surveyed: Analysis, text: str) -> str:
    """The one person whom initials, a name or an id means. Raises Refused."""
    people = surveyed.notebook.people
    found = meant_by(text, people)
    if len(found) == 1:
        return found[0]
    if found:
        raise Refused(f"{text} may be {' or '.join(f'{_name(surveyed, id_)} ({id_})' for id_ in found)}. "
                      "Write the id.")
    known = ", ".join(f"{initials(str(person.name))} {id_}" for id_, person in people.items())
    raise Refused(f"{text} are nobody's initials here. There are: {known}.")


def _ask_day(surveyed: Analysis, last: str) -> str:
    while True:
        try:
            return day_given(str(click.prompt("   Date on the sheet", default=last)).strip(), surveyed.today)
        except Refused as problem:
            click.echo(f"   {problem}")


# --- trying an entry --------------------------------------------------------------------------------------


def _tried(
    surveyed: Analysis, skill: Skill, learner: str, line: Signed, code: str, given: Given,
) -> tuple[dict[str, Value], SignOff]:
    """The entry for one line. Where the book has gone on since, it is dated today, and the day on paper is noted."""
    sheet = f"From the sheet {code.strip().upper()}"
    fields: dict[str, Value] = {
        "who": line.who, "date": line.on, "learner": learner, "skill": str(skill.skill), "items": [str(line.show.id)],
    }
    evidence = list(given.evidence)
    if not evidence and not given.yes and str(line.show.evidence or "seen") != "seen":
        click.echo(f"{line.show.id} is shown by {line.show.evidence}.")
        evidence = asked_evidence(surveyed, fields)
    if evidence:
        fields["evidence"] = evidence
    if given.override is not None and given.override.strip():
        fields["override"] = given.override
    _, breaches = judged(surveyed, fields)
    if any(breach.article is Article.DATE for breach in breaches):
        fields["date"] = surveyed.today.isoformat()
        sheet = f"{sheet}, signed there on {line.on}"
    fields["note"] = f"{sheet}. {given.note}" if given.note is not None and given.note.strip() else f"{sheet}."
    return fields, tried_entry(surveyed, fields, given.yes)


def _with(surveyed: Analysis, record: SignOff) -> Analysis:
    """The notebook as it will be when this entry stands in the book."""
    notebook = surveyed.notebook
    books = {**notebook.books, KIND: (*notebook.books.get(KIND, ()), record)}
    return Analysis(replace(notebook, books=books), [], surveyed.today)


def _in_lines(surveyed: Analysis, skill: Skill, line: Signed, record: SignOff) -> Iterator[str]:
    """One line of the sheet as it goes into the book, and the evidence behind it."""
    yield f"Sign-off {record.number}, {record.date}"
    yield f"  {skill.title}, {_name(surveyed, str(record.learner))}"
    yield f"  NOW {line.show.id}: {line.show.show}"
    yield f"  signed by {_name(surveyed, line.who)} ({line.who})"
    for text in record.evidence:
        yield f"  evidence: {text}"
    evidence = surveyed.law.evidence
    day = record.date.value.last if record.date is not None else None
    for due in item_lines(evidence, skill, {str(line.show.id)}, str(record.learner), day, evidence.cited(record)):
        yield f"  {'there' if due.enough else 'MISSING'}: {due.told}"
    if record.override is not None:
        yield f"  without the proof: {record.override}"
    if record.note is not None:
        yield f"  {record.note}"


def _name(surveyed: Analysis, id_: str) -> str:
    """What a person is called."""
    people: Mapping[str, object] = {str(one): person.name for one, person in surveyed.notebook.people.items()}
    return str(people.get(id_, id_))


__all__ = ["Given", "from_sheet"]
