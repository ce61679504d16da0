"""``benchlore lessons``: who should learn what next, and from whom, in the words of the handbook."""

from __future__ import annotations

import textwrap
from pathlib import Path
from typing import Any

import click

from site_builder.analysis.analysis import analysis
from site_builder.cli.shared import day, notebook_in, notebook_option, today_option
from site_builder.cli.without import titled, words
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.lessons import LAW, Planned
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.handbook.site import LESSONS, Site
from site_builder.views.prose import say

_WIDTH = 100


@click.command()
@notebook_option
@today_option
def lessons(folder: Path, today: Any) -> None:
    """Plan the lessons that bring every skill into enough hands, the riskiest first."""
    people_index = PeopleIndex(Site(analysis(notebook_in(folder), day(today, folder)), ()))
    made = Planned(people_index, PageContext(people_index.book, LESSONS))
    click.echo(textwrap.fill(words(made.summary()), _WIDTH))
    titled("In this order", (say("{}: {}", *made.lesson(one)) for one in made.plan.lessons))
    titled("By when", (
        say("{}{}: {} by {}{}.", row[0], f", {row[1]} now" if row[1] else "", *row[2:4],
            f"; at the earliest {row[4]}" if row[4] else "")
        for row in made.goals()))
    titled("What cannot be reached by lessons", made.unreached())
    titled("To be found anew", made.to_find_anew())
    titled("Who else could be signed to teach", made.to_teach())
    if made.plan.goals:
        titled("How good this is", [made.how_good()])
    if made.plan.lessons:
        titled("What this rests on", made.assumed())
        click.echo("\n" + textwrap.fill(LAW, _WIDTH))
