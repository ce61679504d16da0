"""``benchlore print``: the book, cards for the bench, and sheets to write on, as PDF."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from types import TracebackType
from typing import Any, Self, TypeVar, cast

import click

from site_builder.cli.shared import ERRORS, WRONG_USE, notebook_in, notebook_option, today_option
from site_builder.handbook.build import BuildFailed
from site_builder.handbook.opened import Opened, opened
from site_builder.handbook.publishing.one_file import full, put_file
from site_builder.handbook.publishing.place import Refused
from site_builder.paper.book import Paper, make_book
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
        raise click.exceptions.Exit(WRONG_USE) from None


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
