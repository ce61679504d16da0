"""``benchlore sign`` and ``benchlore withdraw``: the book of sign-offs."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.cli.entering import (
    Refused,
    date_option,
    day_given,
    key_option,
    may_write,
    say_written,
    signer_for,
    told,
    whole_book,
    yes_option,
)
from site_builder.cli.in_lines import in_one_line, sign_off_lines
from site_builder.cli.shared import OK, day, notebook_in, notebook_option, today_option
from site_builder.cli.sheet import Given, from_sheet
from site_builder.cli.signing import (
    KIND,
    asked_evidence,
    judged,
    one_of,
    refuse_unlawful,
    sign_off_of,
    tried_entry,
    written,
)
from site_builder.skills.entry_text import Value
from site_builder.skills.ledger import LEVELS


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
@click.option("--from-sheet", "code", help="The code on a printed checklist: enter what was signed on it.")
@date_option
@key_option
@yes_option
@notebook_option
@today_option
@click.pass_context
def sign(
    context: click.Context, who: str | None, learner: str | None, skill: str | None, level: str | None,
    items: tuple[str, ...], evidence: tuple[str, ...], override: str | None, note: str | None, corrects: str | None,
    because: str | None, code: str | None, on: str | None, key: Path | None, yes: bool, folder: Path, today: Any,
) -> None:
    """Sign that somebody has shown it. Shows the evidence first, and writes nothing against the law."""
    root = notebook_in(folder)
    with told(context):
        surveyed = analysis(root, day(today, folder))
        whole_book(surveyed, KIND)
        if code is not None:
            beside = {"--skill": skill, "--level": level, "--corrects": corrects, "--because": because}
            for option in (name for name, given in beside.items() if given is not None):
                raise click.UsageError(f"{option} does not go with --from-sheet: the sheet says what is signed.")
            from_sheet(root, surveyed, code, Given(
                learner, who, items, day_given(on, surveyed.today), evidence, override, note, key, yes))
            context.exit(OK)
        people, skills = surveyed.notebook.people, surveyed.notebook.skills
        fields: dict[str, Value] = {"who": one_of("Who signs", who, [*people], yes, "--who")}
        fields["date"] = day_given(on, surveyed.today)
        if corrects is not None:
            fields["corrects"] = corrects
        fields["learner"] = one_of("Who has learned it", learner, [*people], yes, "--learner")
        fields["skill"] = one_of("Which skill", skill, [*skills], yes, "--skill")
        if level is None and not items and not yes:
            _ask_what(surveyed, fields)
        if level is not None:
            fields["level"] = level
        if items:
            fields["items"] = items
        if evidence or not yes:
            cited = evidence or asked_evidence(surveyed, fields)
            if cited:
                fields["evidence"] = cited
        given = (("override", override), ("because", because), ("note", note))
        fields |= {name: text for name, text in given if text is not None and text.strip()}
        tried = tried_entry(surveyed, fields, yes)
        for line in sign_off_lines(surveyed, tried):
            click.echo(line)
        may_write(yes)
        say_written(KIND, written(root, surveyed, fields, signer_for(surveyed, str(fields["who"]), key)))
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
        surveyed = analysis(root, day(today, folder))
        whole_book(surveyed, KIND)
        earlier = next((one for one in surveyed.notebook.sign_offs if str(one.number) == number.lstrip("0")), None)
        if earlier is None:
            raise Refused(f"There is no sign-off {number} in the book.")
        click.echo(f"Sign-off {earlier.number}: {in_one_line(earlier)}")
        fields: dict[str, Value] = {
            "who": one_of("Who takes it back", who, [*surveyed.notebook.people], yes, "--who"),
            "date": day_given(on, surveyed.today), "withdraws": str(earlier.number),
        }
        because = because if because is not None or yes else click.prompt("Why")
        fields |= {name: text for name, text in (("because", because), ("note", note)) if text is not None}
        refuse_unlawful(*judged(surveyed, fields))
        may_write(yes)
        say_written(KIND, written(root, surveyed, fields, signer_for(surveyed, str(fields["who"]), key)))
    context.exit(OK)


def _ask_what(surveyed: Analysis, fields: dict[str, Value]) -> None:
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


def _follows(surveyed: Analysis, fields: dict[str, Value]) -> str:
    """The highest level up to `alone` that the law lets follow from what was shown; empty where none does."""
    levels = reversed(LEVELS[:-1])
    lawful = (level for level in levels
              if not surveyed.law.judge_next(sign_off_of(surveyed, {**fields, "level": level})))
    return str(next(lawful, ""))
