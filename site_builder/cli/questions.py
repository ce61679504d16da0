"""``benchlore questions``: what to ask, whom, and about what."""

from __future__ import annotations

import textwrap
from pathlib import Path
from typing import Any

import click

from site_builder.checks.engine import examine
from site_builder.checks.interview import Sitting, interview
from site_builder.checks.report.as_text import counted
from site_builder.checks.survey import survey
from site_builder.cli.shared import day, notebook_in, notebook_option, today_option


@click.command()
@notebook_option
@today_option
@click.option("--whom", help="Only what this person is to be asked (id).")
@click.option("--about", help="Only about this procedure, tool, person … (id).")
@click.option("--no-probes", is_flag=True, help="Leave out the probing questions.")
def questions(folder: Path, today: Any, whom: str | None, about: str | None, no_probes: bool) -> None:
    """Print the questions for the master, by person and procedure."""
    surveyed = survey(notebook_in(folder), day(today))
    people = surveyed.notebook.people
    if whom is not None and whom not in people:
        raise click.UsageError(f"`{whom}` is nobody in skills/people.yml: {', '.join(people) or 'it is empty'}.")
    sittings = [
        s for s in interview(surveyed, examine(surveyed))
        if (whom is None or whom in s.who) and (about is None or about == s.about)
    ]
    before: tuple[str, ...] | None = None
    for sitting in sittings:
        if sitting.who != before:
            names = " or ".join(str(people[w].name) if w in people else w for w in sitting.who)
            click.echo(f"\n{names or 'Whoever knows'}\n{'=' * max(len(names), 14)}")
            before = sitting.who
        _print(sitting, probes=not no_probes)
    total = sum(len(s.questions) for s in sittings)
    click.echo(f"\n{counted(total, 'question')} about {counted(len(sittings), 'thing')}.")


def _print(sitting: Sitting, *, probes: bool) -> None:
    click.echo(f"\n{sitting.title}")
    for number, question in enumerate(sitting.questions, 1):
        click.echo(_wrapped(f"{number:>3}. ", question.text))
        if question.why:
            click.echo(_wrapped("     ", question.why))
        for who, what in question.said:
            click.echo(_wrapped("     ", f"{who} says {what}"))
        click.echo(f"     {question.at.path}:{question.at.line}")
    if probes and sitting.probes:
        click.echo("     And while you sit together:")
        for probe in sitting.probes:
            click.echo(_wrapped("     - ", probe))


def _wrapped(lead: str, text: str) -> str:
    return textwrap.fill(text, 100, initial_indent=lead, subsequent_indent=" " * len(lead))
