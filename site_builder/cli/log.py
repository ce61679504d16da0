"""``benchlore log``: the books of practice, feel trials, measurements and incidents."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import click

from site_builder.analysis.analysis import analysis
from site_builder.cli.entering import (
    Refused,
    date_option,
    day_given,
    draft,
    key_option,
    may_write,
    say_written,
    signer_for,
    told,
    yes_option,
)
from site_builder.cli.in_lines import in_one_line
from site_builder.cli.shared import OK, day, notebook_in, notebook_option, today_option
from site_builder.skills.append import append
from site_builder.skills.entry_text import Value


@dataclass(frozen=True, slots=True)
class Field:
    """A key of an entry: its option, what it asks, whether several, pairs or none may be given, whether it must be."""

    key: str
    help: str
    several: bool = False
    asked: bool = False
    pairs: bool = False
    none: bool = False


WHO = Field("who", "Who did it.", asked=True)
NOTE = Field("note", "A word for the reader.")

PRACTICE = (
    WHO, Field("procedure", "What was done.", asked=True), Field("level", "Under whose eye: beside, alone …"),
    Field("teacher", "Who stood by."), Field("order", "For which order."), Field("pieces", "How many.", asked=True),
    Field("scrap", "How many were lost.", asked=True, none=True),
    Field("rework", "How many were done again.", asked=True, none=True),
    Field("took", "How long it took, as `3 h 40 min`."), NOTE,
)
TRIAL = (
    Field("who", "Whose finger judged.", asked=True),
    Field("felt", "What was judged: the procedure and its step, as `true-the-sole/break-edge`.", asked=True),
    Field("teacher", "Whose verdicts count."),
    Field("verdicts", "A piece and the verdict, as `foot-edge-a=good`.", several=True, asked=True, pairs=True), NOTE,
)
MEASUREMENT = (
    Field("who", "Who measured.", asked=True),
    Field("measured", "The limit, as `true-the-sole/try/flatness of the sole`.", asked=True),
    Field("readings", "What the gauge said, as `0.05 mm`.", several=True, asked=True),
    Field("with", "The gauge.", several=True), Field("pieces", "Of how many pieces."),
    Field("order", "For which order."),
    Field("for", "Of which variant, as `finish=gloss`.", several=True, pairs=True), NOTE,
)
INCIDENT = (
    Field("who", "Who writes this.", asked=True), Field("what", "What happened.", asked=True),
    Field("during", "At which work, as `cast-foot/take-up`."), Field("hazard", "Which hazard."),
    Field("injured", "Who was hurt; nobody for a near miss.", several=True), Field("harm", "How."),
    Field("aid", "What was done at once."), Field("change", "The change it led to."), NOTE,
)
_ONE = {"verdicts": "verdict", "readings": "reading"}
"""Options are named for one of several."""


@click.group()
def log() -> None:
    """Enter practice, a feel trial, a measurement or an incident."""


def _command(kind: str, fields: tuple[Field, ...], purpose: str) -> None:
    @click.pass_context
    def run(
        context: click.Context, /, on: str | None, corrects: str | None, because: str | None, key: Path | None,
        yes: bool, folder: Path, today: Any, **given: Any,
    ) -> None:
        root = notebook_in(folder)
        with told(context):
            surveyed = analysis(root, day(today, folder))
            entry: dict[str, Value] = {}
            for one in fields:
                value = _value(one, given[one.key.replace("-", "_")], yes)
                if value:
                    entry[one.key] = value
                if one.key == "who":
                    entry["date"] = day_given(on, surveyed.today)
            if corrects is not None:
                entry["corrects"] = corrects
            if because is not None:
                entry["because"] = because
            tried = draft(surveyed, kind, entry)
            if tried.errors:
                wrong = (f"  {found.message} {found.fix}".rstrip() for found in tried.errors)
                raise Refused("\n".join(("Nothing was written.", *wrong)))
            click.echo(f"{kind.capitalize()} {tried.record.number}: {in_one_line(tried.record)}")
            for found in tried.findings:
                click.echo(f"  {found.level}: {found.message}")
            may_write(yes)
            signer = signer_for(surveyed, str(entry["who"]), key)
            say_written(kind, append(root, kind, entry, signer=signer))
        context.exit(OK)

    run.__doc__ = purpose
    decorated: Callable[..., Any] = run
    shared = (
        today_option, notebook_option, yes_option, key_option,
        click.option("--because", help="Why the earlier entry was wrong."),
        click.option("--corrects", help="The number of an earlier entry that this one puts right."), date_option,
    )
    for option in shared:
        decorated = option(decorated)
    for one in reversed(fields):
        name = one.key.replace("-", "_")
        decorated = click.option(f"--{_ONE.get(one.key, one.key)}", name, multiple=one.several,
                                 help=one.help + (" May be given again." if one.several else ""))(decorated)
    log.add_command(click.command(kind)(decorated))


def _value(field: Field, given: Any, yes: bool) -> Value:
    """What was given for a field, or is asked for now."""
    if field.several:
        parts = [str(part) for part in given]
        if not parts and field.asked and not yes:
            words = str(click.prompt(f"{field.help} Several with commas between"))
            parts = [part.strip() for part in words.split(",") if part.strip()]
        if field.pairs:
            return dict(_pair(part, field.key) for part in parts)
        return parts
    if given is None and field.asked:
        if yes:
            none = f"; write `--{field.key} 0` if none" if field.none else ""
            raise click.UsageError(f"--{field.key} is missing{none}.")
        given = click.prompt(field.help.rstrip("."))
    return " ".join(str(given).split()) if given is not None else ""


def _pair(text: str, key: str) -> tuple[str, str]:
    name, sign, value = text.partition("=")
    if not sign or not name.strip() or not value.strip():
        if key == "for":
            raise Refused(f"`{text}` is no variant. Write its name, `=` and the value: finish=gloss.")
        raise Refused(f"`{text}` is no verdict. Write the piece, `=` and the verdict: foot-edge-a=good.")
    return name.strip(), value.strip()


_command("practice", PRACTICE, "Pieces made.")
_command("trial", TRIAL, "The same pieces judged by feel, without seeing each other's verdicts.")
_command("measurement", MEASUREMENT, "Readings taken against a limit.")
_command("incident", INCIDENT, "Somebody was hurt, or nearly. Look after them first.")
