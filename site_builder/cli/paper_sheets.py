"""``benchlore print checklist``, ``interview``, ``week``, ``count``: sheets to write on."""

from __future__ import annotations

from pathlib import Path
from typing import Any, cast

import click

from site_builder.checks.interview import interview as sittings_of
from site_builder.cli.papers import known_of, lay, paper_option, printing_options, tried, unknown
from site_builder.paper.cards import CardPaper
from site_builder.paper.sheets import Sheets


@click.command()
@click.argument("skill")
@click.option("--learner", default="", help="For this person (id), with what is signed already.")
@paper_option("a4", "letter")
@printing_options
def checklist(
    skill: str, learner: str, size: str, output: Path | None, fonts: Path | None, with_errors: bool, folder: Path,
    today: Any,
) -> None:
    """The checklist of SKILL, to be signed at the bench and brought into the book by its code."""
    known = known_of(folder, today, with_errors)
    nb = known.site.notebook
    if skill not in nb.skills:
        raise click.UsageError(unknown(skill, "skill", nb.skills))
    if learner and learner not in nb.people:
        raise click.UsageError(unknown(learner, "person", nb.people))
    sheets = Sheets(known.site.analysis, cast(CardPaper, size), fonts)
    name = f"checklist-{skill}-{learner}" if learner else f"checklist-{skill}"
    lay(tried(lambda: sheets.checklist(skill, learner)), output or Path(f"{name}-{size}.pdf"))


@click.command()
@click.argument("person", required=False, default="")
@click.option("--about", default="", help="Only the sitting about this procedure, tool, person … (id).")
@paper_option("a4", "letter")
@printing_options
def interview(
    person: str, about: str, size: str, output: Path | None, fonts: Path | None, with_errors: bool, folder: Path,
    today: Any,
) -> None:
    """The questions for PERSON (id), each sitting on sheets of its own; without a name those for everybody."""
    known = known_of(folder, today, with_errors)
    people = known.site.notebook.people
    if person and person not in people:
        raise click.UsageError(unknown(person, "person", people))
    found = [one for one in sittings_of(known.site.analysis, known.site.findings)
             if (not person or person in one.who) and (not about or about == one.about)]
    if not found:
        click.echo("There is nothing to ask that we know of.")
        return
    who = str(people[person].name) if person else "whoever knows"
    sheets = Sheets(known.site.analysis, cast(CardPaper, size), fonts)
    lay(tried(lambda: sheets.interview(found, who)), output or Path(f"interview-{person or 'everybody'}-{size}.pdf"))


@click.command()
@paper_option("a4", "letter")
@printing_options
def week(size: str, output: Path | None, fonts: Path | None, with_errors: bool, folder: Path, today: Any) -> None:
    """This week by the plan in hand, for the wall."""
    known = known_of(folder, today, with_errors)
    sheets = Sheets(known.site.analysis, cast(CardPaper, size), fonts)
    lay(tried(sheets.week), output or Path(f"week-{size}.pdf"))


@click.command()
@click.argument("procedure", required=False, default="")
@paper_option("a4", "letter")
@printing_options
def count(
    procedure: str, size: str, output: Path | None, fonts: Path | None, with_errors: bool, folder: Path, today: Any,
) -> None:
    """A blank sheet for counting at the bench, of PROCEDURE or of any."""
    known = known_of(folder, today, with_errors)
    there = known.site.notebook.procedures
    if procedure and procedure not in there:
        raise click.UsageError(unknown(procedure, "procedure", there))
    sheets = Sheets(known.site.analysis, cast(CardPaper, size), fonts)
    name = f"count-{procedure}" if procedure else "count"
    lay(tried(lambda: sheets.count(procedure)), output or Path(f"{name}-{size}.pdf"))
