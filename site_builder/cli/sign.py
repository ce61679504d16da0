"""``benchlore sign`` and ``benchlore withdraw``: the book of sign-offs."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import click

from site_builder.checks.survey import Survey, survey
from site_builder.cli.entering import (
    Draft,
    Refused,
    date_option,
    day_given,
    draft,
    key_option,
    may_write,
    read_draft,
    say_written,
    signer_for,
    told,
    whole_book,
    yes_option,
)
from site_builder.cli.in_lines import breach_lines, in_one_line, sign_off_lines
from site_builder.cli.shared import OK, day, notebook_in, notebook_option, today_option
from site_builder.mastery.append import Appended, MovedOn, append
from site_builder.mastery.entry_text import Value
from site_builder.mastery.law import OVERRIDABLE, Breach
from site_builder.mastery.ledger import LEVELS
from site_builder.notebook.model.records import SignOff

KIND = "sign-off"
_LAW_CODES = ("law-", "own-sign-off", "too-young", "date-backward")
_TRIES = 5


@click.command()
@click.option("--who", help="Who signs.")
@click.option("--learner", help="Who has learned it.")
@click.option("--skill", help="Which skill.")
@click.option("--level", type=click.Choice(LEVELS), help="How far.")
@click.option("--item", "items", multiple=True, help="An item of the checklist that was shown; may be given again.")
@click.option("--evidence", multiple=True, help="What it rests on, as `practice 31`; may be given again.")
@click.option("--override", help="Why it is signed though proof is missing; it will stand on every page.")
@click.option("--note", help="A word for the reader.")
@click.option("--corrects", help="The number of an earlier entry that this one puts right.")
@click.option("--because", help="Why that one was wrong.")
@date_option
@key_option
@yes_option
@notebook_option
@today_option
@click.pass_context
def sign(
    context: click.Context, who: str | None, learner: str | None, skill: str | None, level: str | None,
    items: tuple[str, ...], evidence: tuple[str, ...], override: str | None, note: str | None, corrects: str | None,
    because: str | None, on: str | None, key: Path | None, yes: bool, folder: Path, today: Any,
) -> None:
    """Sign that somebody has shown it. Shows the evidence first, and writes nothing against the law."""
    root = notebook_in(folder)
    with told(context):
        surveyed = survey(root, day(today))
        whole_book(surveyed, KIND)
        people, skills = surveyed.notebook.people, surveyed.notebook.skills
        fields: dict[str, Value] = {"who": _one_of("Who signs", who, [*people], yes, "--who")}
        fields["date"] = day_given(on, surveyed.today)
        if corrects is not None:
            fields["corrects"] = corrects
        fields["learner"] = _one_of("Who has learned it", learner, [*people], yes, "--learner")
        fields["skill"] = _one_of("Which skill", skill, [*skills], yes, "--skill")
        if level is None and not items and not yes:
            _ask_what(surveyed, fields)
        if level is not None:
            fields["level"] = level
        if items:
            fields["items"] = items
        if evidence or not yes:
            cited = evidence or _asked_evidence(surveyed, fields)
            if cited:
                fields["evidence"] = cited
        given = (("override", override), ("because", because), ("note", note))
        fields |= {name: text for name, text in given if text is not None and text.strip()}
        tried = _tried(surveyed, fields, yes)
        for line in sign_off_lines(surveyed, tried):
            click.echo(line)
        may_write(yes)
        say_written(KIND, _written(root, surveyed, fields, key))
    context.exit(OK)


@click.command()
@click.argument("number")
@click.option("--who", help="Who takes it back.")
@click.option("--because", help="Why.")
@click.option("--note", help="A word for the reader.")
@date_option
@key_option
@yes_option
@notebook_option
@today_option
@click.pass_context
def withdraw(
    context: click.Context, number: str, who: str | None, because: str | None, note: str | None, on: str | None,
    key: Path | None, yes: bool, folder: Path, today: Any,
) -> None:
    """Take back sign-off NUMBER by a new entry. The old one stays in the book."""
    root = notebook_in(folder)
    with told(context):
        surveyed = survey(root, day(today))
        whole_book(surveyed, KIND)
        earlier = next((one for one in surveyed.notebook.sign_offs if str(one.number) == number.lstrip("0")), None)
        if earlier is None:
            raise Refused(f"There is no sign-off {number} in the book.")
        click.echo(f"Sign-off {earlier.number}: {in_one_line(earlier)}")
        fields: dict[str, Value] = {
            "who": _one_of("Who takes it back", who, [*surveyed.notebook.people], yes, "--who"),
            "date": day_given(on, surveyed.today), "withdraws": str(earlier.number),
        }
        because = because if because is not None or yes else click.prompt("Why")
        fields |= {name: text for name, text in (("because", because), ("note", note)) if text is not None}
        _refuse_unlawful(*_judged(surveyed, fields))
        may_write(yes)
        say_written(KIND, _written(root, surveyed, fields, key))
    context.exit(OK)


def _one_of(question: str, given: str | None, known: Sequence[str], yes: bool, option: str) -> str:
    if given is not None:
        if given not in known:
            raise Refused(f"`{given}` is not in the notebook. There are: {', '.join(known)}.")
        return given
    if yes:
        raise click.UsageError(f"{option} is missing.")
    if not known:
        raise Refused("There is nothing to choose from in the notebook yet.")
    return str(click.prompt(question, type=click.Choice(known)))


def _ask_what(surveyed: Survey, fields: dict[str, Value]) -> None:
    """Ask for items and level; a level is proposed that follows from what was shown."""
    skill = surveyed.notebook.skills[str(fields["skill"])]
    before = surveyed.law.ledger.shown(str(fields["learner"]), str(skill.skill))
    items = [
        str(show.id) for show in skill.checklist
        if show.id is not None and show.id not in before and click.confirm(f"Shown: {show.show}", default=False)
    ]
    shown: dict[str, Value] = {"items": items} if items else {}
    follows = _follows(surveyed, {**fields, **shown})
    level = click.prompt("Level", type=click.Choice([*LEVELS, "none"]), default=follows or "none")
    if level != "none":
        fields["level"] = str(level)
    fields |= shown


def _follows(surveyed: Survey, fields: dict[str, Value]) -> str:
    """The highest level up to `alone` that the law lets follow from what was shown; empty where none does."""
    levels = reversed(LEVELS[:-1])
    lawful = (level for level in levels
              if not surveyed.law.judge_next(_sign_off(surveyed, {**fields, "level": level})))
    return str(next(lawful, ""))


def _asked_evidence(surveyed: Survey, fields: dict[str, Value]) -> list[str]:
    evidence, skill = surveyed.law.evidence, str(fields["skill"])
    notebook = surveyed.notebook
    found = [one for one in (*notebook.practice, *notebook.trials, *notebook.measurements)
             if one.who == fields["learner"] and skill in evidence.skills_of(one) and not evidence.answered(one)]
    for one in found:
        click.echo(f"  {one.KIND} {one.number}: {in_one_line(one)}")
    words = str(click.prompt("It rests on (as `practice 31, trial 2`)", default="", show_default=False))
    return [" ".join(part.split()) for part in words.split(",") if part.strip()]


def _tried(surveyed: Survey, fields: dict[str, Value], yes: bool) -> SignOff:
    """The entry as it will be written; asks for a reason where only proof is missing. Raises Refused."""
    tried, breaches = _judged(surveyed, fields)
    overridable = bool(breaches) and all(breach.article in OVERRIDABLE for breach in breaches)
    if overridable and not tried.errors and not yes and "override" not in fields:
        for line in breach_lines(breaches):
            click.echo(line)
        reason = str(click.prompt("Why do you sign it all the same (nothing: do not)", default="", show_default=False))
        if reason.strip():
            fields["override"] = reason.strip()
            tried, breaches = _judged(surveyed, fields)
    _refuse_unlawful(tried, breaches)
    record = tried.record
    assert isinstance(record, SignOff)
    return record


def _judged(surveyed: Survey, fields: dict[str, Value]) -> tuple[Draft, list[Breach]]:
    tried = draft(surveyed, KIND, fields)
    kept = tuple(found for found in tried.findings if not found.code.startswith(_LAW_CODES))
    return Draft(tried.record, kept), surveyed.law.judge_next(_sign_off(surveyed, fields))


def _sign_off(surveyed: Survey, fields: dict[str, Value]) -> SignOff:
    record, _ = read_draft(surveyed, KIND, fields)
    assert isinstance(record, SignOff)
    return record


def _refuse_unlawful(tried: Draft, breaches: list[Breach]) -> None:
    wrong = [*breach_lines(breaches), *(f"  {found.message} {found.mend}" for found in tried.errors)]
    if wrong:
        raise Refused("\n".join(("This is against the law of the book. Nothing was written.", *wrong)))


def _written(root: Path, surveyed: Survey, fields: dict[str, Value], key: Path | None) -> Appended:
    """Write the entry; where somebody else was quicker, look again whether it is still lawful."""
    signer = signer_for(surveyed, str(fields["who"]), key)
    for _ in range(_TRIES):
        book = whole_book(surveyed, KIND)
        seen = book.entries[-1].seal if book is not None and book.entries else ""
        try:
            return append(root, KIND, fields, signer=signer, seen=seen)
        except MovedOn:
            surveyed = survey(root, surveyed.today)
            _refuse_unlawful(*_judged(surveyed, fields))
    raise Refused("Others write into the book without pause. Nothing was written; try again in a moment.")
