"""``benchlore print``: the book, cards for the bench, and sheets to write on, as PDF."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from pathlib import Path
from tempfile import gettempdir
from types import TracebackType
from typing import Any, Self, TypeVar, cast

import click

from site_builder.cli.shared import ERRORS, OK, WRONG_USE, notebook_in, notebook_option, today_option
from site_builder.handbook.build import BuildFailed
from site_builder.handbook.opened import Opened, opened
from site_builder.handbook.publishing.one_file import full, put_file
from site_builder.handbook.publishing.place import Refused
from site_builder.notebook.nearest import did_you_mean, nearest
from site_builder.paper.book import Paper, make_book
from site_builder.paper.cards import CardPaper, make_cards
from site_builder.paper.outdated import codes_in, looked_over
from site_builder.paper.press import Printed, is_ours
from site_builder.paper.problem import CannotPrint
from site_builder.views.anchors import token

F = TypeVar("F", bound=Callable[..., Any])
T = TypeVar("T")


def paper_option(*sizes: str) -> Callable[[F], F]:
    """``--paper SIZE``."""
    return click.option("--paper", "size", type=click.Choice(sizes, case_sensitive=False), default="a4",
                        show_default=True, help="The size of the paper.")


def printing_options(function: F) -> F:
    """What every paper takes: where it goes, fonts of the shop's own, the notebook and the day."""
    for option in (
        click.option("--output", "-o", type=click.Path(path_type=Path), default=None,
                     help="The file to write (default: named after what it is, in this folder)."),
        click.option("--fonts", type=click.Path(path_type=Path, exists=True, file_okay=False), default=None,
                     help="A folder with fonts of your own, for letters that the typefaces of the papers lack."),
        click.option("--with-errors", is_flag=True, help="Print in spite of errors in the notebook."),
        notebook_option, today_option,
    ):
        function = option(function)
    return function


@click.command()
@paper_option("a4", "a5", "letter")
@printing_options
def book(size: str, output: Path | None, fonts: Path | None, with_errors: bool, folder: Path, today: Any) -> None:
    """The whole book, two-sided, to print and to keep (PDF/A-2a and PDF/UA-1)."""
    known = known_of(folder, today, with_errors)
    with Progress() as progress:
        made = tried(lambda: make_book(known.site.analysis, paper=cast(Paper, size), system=known.site.system,
                                       fonts=fonts, tell=progress.tell))
    lay(made, output or Path(f"{shop_name(known)}-{size}.pdf"))


@click.command()
@click.argument("procedures", nargs=-1)
@click.option("--all", "every", is_flag=True, help="A card of every procedure.")
@paper_option("a4", "letter")
@printing_options
@click.pass_context
def card(
    context: click.Context, procedures: tuple[str, ...], every: bool, size: str, output: Path | None,
    fonts: Path | None, with_errors: bool, folder: Path, today: Any,
) -> None:
    """Cards for the bench: each PROCEDURE on one sheet, two sides at most, to laminate.

    The codes in the feet of the cards are told. Kept in a file, they are the list of what hangs on the wall:
    `benchlore print --outdated FILE` names the cards that no longer hold.
    """
    if every == bool(procedures):
        raise click.UsageError("Name the procedures (by id), or say --all.")
    known = known_of(folder, today, with_errors)
    there = known.site.notebook.procedures
    for one in procedures:
        if one not in there:
            raise click.UsageError(unknown(one, "procedure", there))
    wanted = list(there) if every else list(dict.fromkeys(procedures))
    with Progress() as progress:
        made = tried(lambda: make_cards(known.site.analysis, wanted, paper=cast(CardPaper, size),
                                        system=known.site.system, fonts=fonts, tell=progress.tell))
    for refusal in made.refused:
        click.echo(f"No card of {refusal.procedure}: {refusal.why}", err=True)
    if made.printed is not None:
        name = f"card-{wanted[0]}" if len(wanted) == 1 else "cards"
        for printed in made.cards:
            book = "; part of it is only in the book" if printed.shortened else ""
            click.echo(f"{printed.code}  {printed.title} ({printed.procedure}){book}")
        lay(made.printed, output or Path(f"{name}-{size}.pdf"))
    context.exit(ERRORS if made.refused else OK)


@click.command()
@click.argument("cards", nargs=-1, required=True)
@notebook_option
@today_option
@click.pass_context
def outdated(context: click.Context, cards: tuple[str, ...], folder: Path, today: Any) -> None:
    """Name the cards that no longer hold. CARDS are codes from their feet, or files in which such codes stand."""
    known = known_of(folder, today, True)
    codes: dict[str, None] = {}
    for one in cards:
        listed = codes_in(_listed_in(one)) if Path(one).is_file() or one == "-" else (one,)
        if not listed:
            raise click.UsageError(f"In {one} stands no code. A code is in the foot of each card, as KQF-7MB-X4R.")
        codes |= dict.fromkeys(listed)
    bad = 0
    for found in looked_over(known.site.analysis, codes, known.site.system):
        if found.holds:
            continue
        bad += 1
        if found.problem:
            click.echo(f"{found.code}: {found.problem}")
        else:
            click.echo(f"{found.code}: {found.title} ({found.procedure}) was changed since. Take it down and print it "
                       f"anew: `benchlore print card {found.procedure}`. It is {found.now} now.")
    good = len(codes) - bad
    click.echo(f"{good} of {len(codes)} {'card holds' if len(codes) == 1 else 'cards hold'}.")
    context.exit(ERRORS if bad else OK)


def _listed_in(file: str) -> str:
    try:
        return sys.stdin.read() if file == "-" else Path(file).read_text("utf-8")
    except UnicodeDecodeError:
        raise click.UsageError(f"{file} is no text in UTF-8. Save it as plain text.") from None


def unknown(word: str, what: str, there: Iterable[str]) -> str:
    """What is said of a name that is nothing in this notebook."""
    known = list(there)
    return (f"`{word}` is no {what} of this notebook. {did_you_mean(nearest(word, known))}"
            f"There are: {', '.join(known) or 'none'}.")


def known_of(folder: Path, today: Any, with_errors: bool) -> Opened:
    """The notebook as the handbook reads it. What is printed from errors is believed for years, so it is refused."""
    try:
        return opened(notebook_in(folder), today=today and today.date(), with_errors=with_errors, with_pictures=False)
    except BuildFailed as problem:
        click.echo(str(problem), err=True)
        raise click.exceptions.Exit(ERRORS) from None


def shop_name(known: Opened) -> str:
    """The shop as the beginning of the name of a file."""
    shop = known.site.notebook.shop
    return (token(str(shop.title))[:60].strip("-") if shop is not None and shop.title else "") or "handbook"


def tried(make: Callable[[], T]) -> T:
    """What is made, or in words why it is not."""
    try:
        return make()
    except CannotPrint as problem:
        click.echo(f"\n{problem}", err=True)
    except OSError as problem:
        if not full(problem):
            raise
        click.echo(f"\nThe disk on which papers are put together ({gettempdir()}) is full. What was printed before "
                   "is as it was.", err=True)
    raise click.exceptions.Exit(WRONG_USE)


def lay(made: Printed, place: Path) -> None:
    """Put a paper in its place, and tell where it lies, how many pages it has and what it lacks."""
    try:
        put_file(place, made.data, ours=is_ours, kind="paper")
    except Refused as problem:
        click.echo(str(problem), err=True)
        raise click.exceptions.Exit(WRONG_USE) from None
    except OSError as problem:
        if not full(problem):
            raise
        click.echo(f"The disk is full: {place.name} takes {len(made.data) / 1e6:.1f} MB. What stood there is as it "
                   "was.", err=True)
        raise click.exceptions.Exit(WRONG_USE) from None
    for line in made.lacks:
        click.echo(line, err=True)
    click.echo(f"{made.pages} {'page' if made.pages == 1 else 'pages'}, {len(made.data) / 1e6:.1f} MB: {place}")


class Progress:
    """A bar for each thing that is done, on a terminal; where there is none, its name on a line."""

    def __init__(self) -> None:
        self._what = ""
        self._bar: Any = None

    def __enter__(self) -> Self:
        return self

    def __exit__(self, _kind: type[BaseException] | None, _error: BaseException | None,
                 _trace: TracebackType | None) -> None:
        self._close()

    def tell(self, what: str, done: int, of: int) -> None:
        """So much of a thing is done."""
        if what != self._what:
            self._close()
            self._what = what
            self._bar = click.progressbar(length=max(of, 1), label=what, show_pos=False)
            self._bar.__enter__()
        if self._bar.length != max(of, 1):
            self._bar.length = max(of, 1)
        self._bar.update(done - self._bar.pos)

    def _close(self) -> None:
        if self._bar is not None:
            self._bar.update(self._bar.length - self._bar.pos)
            self._bar.__exit__(None, None, None)
            self._bar = None
