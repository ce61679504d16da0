"""``benchlore without ID…``: what would be lost with some of the people, in the words of the handbook."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import click
from markupsafe import Markup

from site_builder.checks.survey import Survey, survey
from site_builder.cli.shared import day, notebook_in, notebook_option, today_option
from site_builder.handbook.book import WITHOUT, Book
from site_builder.handbook.pages import without as page
from site_builder.handbook.pages.roll import Roll
from site_builder.handbook.pen import Pen
from site_builder.mastery.loss import each_without, pairs_without, single_points
from site_builder.mastery.loss import without as lost_with

_WIDTH = 100


@click.command()
@click.argument("people", nargs=-1, metavar="[ID…]")
@notebook_option
@today_option
def without(people: tuple[str, ...], folder: Path, today: Any) -> None:
    """Tell what would be lost if all of these people left; without an ID, for each of us and for every two."""
    surveyed = survey(notebook_in(folder), day(today))
    _known(surveyed, people)
    roll = Roll(Book(surveyed, ()))
    pen = Pen(roll.book, WITHOUT)
    if people:
        names = " and ".join(pen.title("person", person) for person in dict.fromkeys(people))
        told = [*page.sentences(roll, pen, lost_with(roll.knowledge, people))]
        titled(f"Without {names}", told or [Markup("Nothing would stop, and nothing would be left without a teacher.")])
    else:
        _everything(roll, pen)
    titled("Not told", page.untold(roll, pen))
    click.echo("\n" + textwrap.fill(page.COUNTED, _WIDTH))


def _everything(roll: Roll, pen: Pen) -> None:
    """The page as text."""
    known = roll.knowledge
    points, each = single_points(known), each_without(known)
    click.echo(textwrap.fill(words(page.summary(roll, pen, points)), _WIDTH))
    for person, loss in each.items():
        titled(f"Without {pen.title('person', person)}", page.sentences(roll, pen, loss))
    titled("Nobody would be missed at once", [one] if (one := page.unmissed(roll, pen, each.values())) else [])
    for (one_of, other), loss in pairs_without(known).items():
        titled(f"Only {pen.title('person', one_of)} and {pen.title('person', other)}, besides what is lost with either",
               page.sentences(roll, pen, loss))
    titled("What hangs on one pair of hands, the gravest first", (
        Markup("{}, {}. Stops at once: {}. Later: {}.").format(*(cell.rstrip(".") for cell in row)) if row[3] else
        Markup("{}, {}. Stops at once: {}.").format(*(cell.rstrip(".") for cell in row[:3]))
        for row in (page.point_row(pen, point) for point in points)))
    titled("Missing already", page.sentences(roll, pen, lost_with(known, ())))


def _known(surveyed: Survey, people: Iterable[str]) -> None:
    notebook = surveyed.notebook
    for person in people:
        if person not in notebook.people:
            here = ", ".join(notebook.living) or "it is empty"
            raise click.UsageError(f"`{person}` is nobody in skills/people.yml: {here}.")
        if person not in notebook.living:
            raise click.UsageError(f"`{person}` is not in the shop any more: nothing more is lost.")


def titled(title: str, lines: Iterable[Markup]) -> None:
    """A title and what stands under it, a line each; nothing where there is none."""
    told = [words(line) for line in lines]
    if told:
        click.echo(f"\n{title}")
        for line in told:
            click.echo(textwrap.fill(line, _WIDTH, initial_indent="  - ", subsequent_indent="    "))


def words(text: Markup) -> str:
    """The words of a sentence of the handbook, without its links."""
    return text.striptags()
