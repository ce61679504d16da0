"""``benchlore without ID…``: what would be lost with some of the people, in the words of the handbook."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import click

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.cli.shared import day, notebook_in, notebook_option, today_option
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages import without as page
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.handbook.site import WITHOUT, Site
from site_builder.skills.loss import each_without, pairs_without, single_points
from site_builder.skills.loss import without as lost_with
from site_builder.views.prose import Prose, prose, say, unstopped

_WIDTH = 100


@click.command()
@click.argument("people", nargs=-1, metavar="[ID…]")
@notebook_option
@today_option
def without(people: tuple[str, ...], folder: Path, today: Any) -> None:
    """Tell what would be lost if all of these people left; without an ID, for each of us and for every two."""
    surveyed = analysis(notebook_in(folder), day(today, folder))
    _known(surveyed, people)
    people_index = PeopleIndex(Site(surveyed, ()))
    context = PageContext(people_index.book, WITHOUT)
    if people:
        names = " and ".join(context.title("person", person) for person in dict.fromkeys(people))
        told = [*page.sentences(people_index, context, lost_with(people_index.knowledge, people))]
        titled(f"Without {names}", told or [_unmissed(people_index, people)])
    else:
        _everything(people_index, context)
    titled("Not told", page.untold(people_index, context))
    click.echo("\n" + textwrap.fill(page.COUNTED, _WIDTH))


def _unmissed(people_index: PeopleIndex, people: Iterable[str]) -> Prose:
    known = people_index.knowledge
    if not any(one in able for able in (*known.able.values(), *known.teachers.values()) for one in people):
        return prose("Nothing is signed for them yet that anybody else would have to do.")
    so_far = " of what is told" if known.unasked else ""
    return say("Nothing{} would stop, and nothing would be left without a teacher.", so_far)


def _everything(people_index: PeopleIndex, context: PageContext) -> None:
    """The page as text."""
    known = people_index.knowledge
    points, each = single_points(known), each_without(known)
    click.echo(textwrap.fill(words(page.summary(people_index, context, points)), _WIDTH))
    for person, loss in each.items():
        titled(f"Without {context.title('person', person)}", page.sentences(people_index, context, loss))
    titled(
        "Nobody would be missed at once", [one] if (one := page.unmissed(people_index, context, each.values())) else []
    )
    for (one_of, other), loss in pairs_without(known).items():
        titled(
            f"Only {context.title('person', one_of)} and {context.title('person', other)}, "
            "besides what is lost with either",
            page.sentences(people_index, context, loss),
        )
    titled("What hangs on one pair of hands, the gravest first", (
        say("{}, {}. Stops at once: {}. Later: {}.", *map(unstopped, row)) if row[3] else
        say("{}, {}. Stops at once: {}.", *map(unstopped, row[:3]))
        for row in (page.point_row(context, point) for point in points)))
    titled("Missing already", page.sentences(people_index, context, lost_with(known, ())))


def _known(surveyed: Analysis, people: Iterable[str]) -> None:
    notebook = surveyed.notebook
    for person in people:
        if person not in notebook.people:
            here = ", ".join(notebook.living) or "it is empty"
            raise click.UsageError(f"`{person}` is nobody in skills/people.yml: {here}.")
        if person not in notebook.living:
            raise click.UsageError(f"`{person}` is not in the shop any more: nothing more is lost.")


def titled(title: str, lines: Iterable[Prose]) -> None:
    """A title and what stands under it, a line each; nothing where there is none."""
    told = [words(line) for line in lines]
    if told:
        click.echo(f"\n{title}")
        for line in told:
            click.echo(textwrap.fill(line, _WIDTH, initial_indent="  - ", subsequent_indent="    "))


def words(text: Prose) -> str:
    """The words of a sentence of the handbook, without its links."""
    return text.plain
