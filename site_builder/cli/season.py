"""``benchlore season``: can these hands deliver by the date; what if; is a plan still good; how far are we."""

from __future__ import annotations

import re
import textwrap
import time
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import Any

import click

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.cli.shared import ERRORS, day, notebook_in, notebook_option, today_option
from site_builder.notebook.finding import Level
from site_builder.notebook.model.season import Season
from site_builder.notebook.model.small import WEEKDAYS
from site_builder.plans.broken_told import broken_told
from site_builder.plans.by_the_hour import by_the_hour, clock
from site_builder.plans.follow import follow
from site_builder.plans.make import make
from site_builder.plans.plan_file import keep_what_if, look, newest, write
from site_builder.plans.told import answer, chances, how_good, narrow_told
from site_builder.plans.wanted import CannotPlan, Wants, wants
from site_builder.plans.what_if import CannotAsk, Otherwise, beside
from site_builder.plans.words import brings, day_told
from site_builder.season.engine import Effort, EngineMissing
from site_builder.season.spans import Circle

_WIDTH = 100


@click.group()
def season() -> None:
    """Plan a season: can these hands deliver by the date, who does what when, what is narrow."""


def _say(text: str) -> None:
    click.echo(textwrap.fill(text, _WIDTH))


def _listed(title: str, lines: Sequence[str]) -> None:
    if lines:
        click.echo(f"\n{title}")
        for line in lines:
            click.echo(textwrap.fill(line, _WIDTH, initial_indent="  - ", subsequent_indent="    "))


def _order(known: Analysis, id_: str) -> str:
    orders = known.notebook.orders
    if id_ not in orders:
        raise click.UsageError(f"`{id_}` is no order of this shop: {', '.join(orders) or 'none is written'}. "
                               "An order is a file in procedures/orders/.")
    return id_


def _wants(known: Analysis, id_: str) -> Wants:
    try:
        return wants(known, id_)
    except CannotPlan as problem:
        raise click.ClickException(str(problem)) from None


def _surveyed(folder: Path, today: Any) -> Analysis:
    return analysis(notebook_in(folder), day(today, folder))


class _Progress:
    """A line on the error stream whenever something new is known, with the seconds it has taken."""

    def __init__(self) -> None:
        self.begin = time.monotonic()

    def __call__(self, what: str) -> None:
        click.echo(f"{time.monotonic() - self.begin:6.0f} s  {what}", err=True)


def _planned(work: Callable[[], Any]) -> Any:
    try:
        return work()
    except CannotPlan as problem:
        raise click.ClickException(str(problem)) from None
    except EngineMissing as problem:
        raise click.ClickException(f"{problem}. Everything else works without it.") from None
    except Circle as problem:
        raise click.ClickException(f"These wait for each other and cannot be planned: {', '.join(problem.works)}. "
                                   "`benchlore check` tells where.") from None


# ---------------------------------------------------------------------- plan


@season.command()
@click.argument("order")
@click.option("--effort", type=click.FloatRange(min=1), default=None,
              help="Search for a sooner and then for a calmer plan, so many steps of the engine each; 10 in a small "
              "season, and none in a large one for which the quick rule finds a plan. A large one takes many minutes.")
@click.option("--dry", is_flag=True, help="Tell, and write no file.")
@notebook_option
@today_option
def plan(order: str, effort: float | None, dry: bool, folder: Path, today: Any) -> None:
    """Plan ORDER and keep the plan in procedures/seasons/. Ctrl-C keeps the best so far."""
    known = _surveyed(folder, today)
    wanted = _wants(known, _order(known, order))
    try:
        made = _planned(lambda: make(known, wanted, Effort(effort) if effort else None, _Progress()))
    except KeyboardInterrupt:
        raise click.ClickException("Stopped before there was a plan. Nothing was written.") from None
    _say(answer(known, made))
    _say(how_good(made))
    if made.played is not None:
        _say(chances(made))
    _listed("What is narrow, as far as hours tell: eight hours more of it bring the soonest end nearer by", [
        f"{narrow_told(known, one)}: {brings(one.days)}" for one in made.narrow[:5]])
    _listed("What cannot all be kept", made.cannot)
    _listed("Ways out", made.ways)
    _listed("It stands on this, which nobody has written", wanted.assumed)
    if not dry:
        path = write(known.notebook.root, known, made)
        click.echo(f"\nWritten: {path}")


# ---------------------------------------------------------------------- what if


def _date(_context: click.Context, _option: click.Parameter, value: str | None) -> date | None:
    if value is None:
        return None
    try:
        return date.fromisoformat(value)
    except ValueError:
        raise click.BadParameter(f"`{value}` is no day. Write it as 2027-02-01.") from None


def _a_week(_context: click.Context, _option: click.Parameter, value: str | None) -> int | None:
    if value is None:
        return None
    found = re.fullmatch(r"(\d+(?:\.\d+)?)(?:\s*h)?(?:\s*/\s*week)?", value.strip())
    if found is None or float(found[1]) <= 0:
        raise click.BadParameter(f"`{value}` is no time a week. Write it as 8h/week.")
    return int(float(found[1]) * 3_600)


@season.command("what-if")
@click.argument("order")
@click.option("--without", "gone", metavar="PERSON", help="This person is away.")
@click.option("--machine-down", "down", metavar="MACHINE", help="This machine is out of order.")
@click.option("--from", "since", callback=_date, metavar="DAY", help="From this day (default: the first).")
@click.option("--to", "until", callback=_date, metavar="DAY", help="Until this day (default: the last).")
@click.option("--pieces", type=click.IntRange(1, 1_000_000), help="So many pieces.")
@click.option("--due", callback=_date, metavar="DAY", help="Due on this day.")
@click.option("--one-more-hand", "more", callback=_a_week, metavar="HOURS", help="One more, as 8h/week.")
@click.option("--teach", nargs=2, metavar="PERSON SKILL", help="This person may do the work of the skill alone, from "
              "--from on.")
@click.option("--keep", is_flag=True, help="Write the answer into the newest plan of the order, as one that was asked.")
@notebook_option
@today_option
def what_if(
    order: str, gone: str | None, down: str | None, since: date | None, until: date | None, pieces: int | None,
    due: date | None, more: int | None, teach: tuple[str, str] | None, keep: bool, folder: Path, today: Any,
) -> None:
    """Lay ORDER with something otherwise beside it as it stands, one sentence each. Only --keep writes."""
    known = _surveyed(folder, today)
    kept = newest(known.notebook.seasons, _order(known, order))
    if keep and kept is None:
        raise click.UsageError(f"There is no plan to keep it in. First `benchlore season plan {order}`.")
    otherwise = Otherwise(gone, down, since, until, pieces, due, more, teach)
    if otherwise == Otherwise(since=since, until=until):
        raise click.UsageError("What is to be otherwise? Say one of --without, --machine-down, --pieces, --due, "
                               "--one-more-hand, --teach.")
    try:
        stands, answered = _planned(lambda: beside(known, order, otherwise))
    except CannotAsk as problem:
        raise click.UsageError(str(problem)) from None
    _say(stands)
    _say(answered)
    click.echo(textwrap.fill("Both by the quick rule and not by the long search; `season plan` may find sooner ones.",
                             _WIDTH))
    if keep and kept is not None:
        keep_what_if(known.notebook.root / kept.at.path, f"Asked on {day_told(known.today)}. {answered}")
        click.echo(f"Kept in {kept.at.path}")


# ---------------------------------------------------------------------- check, follow


def _plan_of(known: Analysis, name: str) -> Season:
    """A plan by its file, its id, or its order (the newest)."""
    seasons = known.notebook.seasons
    found = seasons.get(Path(name).stem) or newest(seasons, name)
    if found is None:
        stem = Path(name).stem
        broken = [one for one in known.reading if one.level is Level.ERROR and Path(one.at.path).stem == stem]
        if broken:
            raise click.ClickException(f"{name} cannot be read: {broken[0].message} `benchlore check` tells more.")
        raise click.UsageError(f"`{name}` is no plan of this notebook: {', '.join(seasons) or 'there is none'}. "
                               "`benchlore season plan ORDER` makes one.")
    return found


@season.command()
@click.argument("file")
@notebook_option
@today_option
@click.pass_context
def check(context: click.Context, file: str, folder: Path, today: Any) -> None:
    """Look through the plan FILE: can it be lived by these people, as the notebook is now?"""
    known = _surveyed(folder, today)
    kept = _plan_of(known, file)
    try:
        looked = look(known, kept)
    except CannotPlan as problem:
        raise click.ClickException(str(problem)) from None
    for line in looked.unread:
        click.echo(f"{line.at.path}:{line.at.line}: names work, people or a day that the notebook does not have (now).")
    for one in looked.broken:
        click.echo(textwrap.fill(broken_told(known, looked.wants, one), _WIDTH))
    if looked.unread or looked.broken:
        count = len(looked.unread) + len(looked.broken)
        click.echo(f"\n{kept.at.path}: {count} {'thing' if count == 1 else 'things'} broken. "
                   f"Plan anew: `benchlore season plan {kept.order}`.")
        context.exit(ERRORS)
    click.echo(f"{kept.at.path}: {len(looked.plan)} stints, and none breaks a rule.")


@season.command(name="hours")
@click.argument("file")
@click.option("--from", "since", callback=_date, metavar="DAY", help="From this day (default: today, or the plan's "
              "first).")
@click.option("--days", type=click.IntRange(1, 60), default=14, show_default=True, help="So many days of the calendar.")
@notebook_option
@today_option
def hours_(file: str, since: date | None, days: int, folder: Path, today: Any) -> None:
    """The next two weeks of the plan FILE by the quarter hour: when on each day everybody begins what, one at a time at
    each machine. Hours are counted from when work begins."""
    known = _surveyed(folder, today)
    kept = _plan_of(known, file)
    worked = [one.date.value.first for one in kept.work]
    first = since or max(known.today, min(worked, default=known.today))
    try:
        told = _planned(lambda: [*by_the_hour(known, kept, first, days)])
    except CannotPlan as problem:
        raise click.ClickException(str(problem)) from None
    if not told:
        click.echo(f"Nothing is planned in the {days} days from {day_told(first)} on.")
    nb = known.notebook
    for day_ in told:
        click.echo(f"\n{WEEKDAYS[day_.on.weekday()]}, {day_told(day_.on)}")
        if day_.hours is None:
            click.echo("  What is planned does not fit into this day in any order: who works at it begins earlier, or "
                       "does the rest the day after.")
        for hour in day_.hours or ():
            own = nb.procedures.get(hour.stint.work.rpartition(":")[2])
            what = str(own.title) if own is not None else hour.stint.work
            many = f", {hour.stint.pieces}" if hour.stint.leads else ", second pair of hands"
            click.echo(f"  {clock(hour.first):>5} to {clock(hour.end):>5}  {nb.people[hour.stint.person].name}: "
                       f"{what}{many}")


@season.command(name="follow")
@click.argument("file")
@notebook_option
@today_option
def follow_(file: str, folder: Path, today: Any) -> None:
    """Lay what was really done, by the practice book, beside the plan FILE (or the newest plan of an order)."""
    known = _surveyed(folder, today)
    kept = _plan_of(known, file)
    click.echo(f"{kept.title}: as it stands at the end of {day_told(known.today)}\n")
    click.echo(f"{'Work':40}  {'Planned':>7}  {'Done':>5}  {'Of':>5}  Ahead or behind")
    for one in follow(known.notebook, kept, known.today):
        title = textwrap.shorten(str(known.notebook.procedures[one.procedure].title)
                                 if one.procedure in known.notebook.procedures else one.procedure, 40)
        click.echo(f"{title:40}  {one.planned:7}  {one.done:5}  {one.whole:5}  {_stands(one.days)}")
    click.echo("\n" + textwrap.fill("Pieces and days by arithmetic. A new date comes only from planning anew: "
                                    f"`benchlore season plan {kept.order}`.", _WIDTH))


def _stands(days: int | None) -> str:
    if not days:
        return "as planned"
    return f"{abs(days)} {'day' if abs(days) == 1 else 'days'} {'ahead' if days > 0 else 'behind'}"
