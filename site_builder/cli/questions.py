"""``benchlore questions``: what to ask, whom, and about what."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import click

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.checks.engine import examine
from site_builder.checks.interview import Sitting, interview
from site_builder.checks.report.as_text import counted
from site_builder.checks.weight import Weighed, weighed
from site_builder.cli.shared import day, notebook_in, notebook_option, today_option

A_QUESTION = 3
"""Minutes a question takes when two sit together, so that a sitting can be cut to the time there is (a guess)."""


@click.command()
@notebook_option
@today_option
@click.option("--whom", help="Only what this person is to be asked (id).")
@click.option("--about", help="Only about this procedure, tool, person … (id).")
@click.option("--weightiest", type=click.IntRange(min=1), help="Only so many, the weightiest first.")
@click.option("--minutes", type=click.IntRange(min=1),
              help=f"What fits into this time, the weightiest first; {A_QUESTION} min are reckoned for each.")
@click.option("--no-probes", is_flag=True, help="Leave out the probing questions.")
def questions(
    folder: Path, today: Any, whom: str | None, about: str | None, weightiest: int | None, minutes: int | None,
    no_probes: bool,
) -> None:
    """Print the questions for the master, by person and procedure."""
    surveyed = analysis(notebook_in(folder), day(today, folder))
    people = surveyed.notebook.people
    if whom is not None and whom not in people:
        raise click.UsageError(f"`{whom}` is nobody in skills/people.yml: {', '.join(people) or 'it is empty'}.")
    if about is not None and not _is_known(surveyed, about):
        raise click.UsageError(f"`{about}` is no procedure, tool, material, skill or part of this notebook.")
    sittings = [
        s for s in interview(surveyed, examine(surveyed))
        if (whom is None or whom in s.who) and (about is None or about == s.about)
    ]
    if weightiest is not None or minutes is not None:
        found = weighed(surveyed, sittings)
        room = min(n for n in (weightiest, minutes and max(1, minutes // A_QUESTION), len(found)) if n is not None)
        _print_weighed(found[:room], len(found))
        return
    before: tuple[str, ...] | None = None
    explained: set[str] = set()
    for sitting in sittings:
        if sitting.who != before:
            names = " or ".join(str(people[w].name) if w in people else w for w in sitting.who) or "Whoever knows"
            click.echo(f"\n{names}\n{'=' * len(names)}")
            before = sitting.who
        _print(sitting, explained, probes=not no_probes)
    total = sum(len(s.questions) for s in sittings)
    click.echo(f"\n{counted(total, 'question')} about {counted(len(sittings), 'thing')}.")


def _print_weighed(found: Sequence[Weighed], of: int) -> None:
    """The weightiest questions one after the other, each with what it is about."""
    weight = None
    for number, one in enumerate(found, 1):
        if one.weight is not weight:
            weight = one.weight
            click.echo(f"\n{weight.words[0].upper()}{weight.words[1:]}")
        click.echo(_wrapped(f"{number:>3}. ", one.question.text))
        click.echo(f"     {one.question.at.path}:{one.question.at.line}")
    click.echo(f"\n{counted(len(found), 'question')} of {of}.")


def _print(sitting: Sitting, explained: set[str], *, probes: bool) -> None:
    """The questions of a sitting; the reason of a kind of question is given once."""
    click.echo(f"\n{sitting.title}")
    for number, question in enumerate(sitting.questions, 1):
        click.echo(_wrapped(f"{number:>3}. ", question.text))
        if question.why and question.code not in explained:
            explained.add(question.code)
            click.echo(_wrapped("     ", question.why))
        click.echo(f"     {question.at.path}:{question.at.line}")
    if probes and sitting.probes:
        click.echo("     And while you sit together:")
        for probe in sitting.probes:
            click.echo(_wrapped("     - ", probe))


def _is_known(surveyed: Analysis, about: str) -> bool:
    notebook = surveyed.notebook
    return notebook.entry(about) is not None or (notebook.shop is not None and about == notebook.shop.shop)


def _wrapped(lead: str, text: str) -> str:
    return textwrap.fill(text, 100, initial_indent=lead, subsequent_indent=" " * len(lead))
