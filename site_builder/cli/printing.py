"""``benchlore print``: what is taken to the bench, put on the shelf or read without a browser."""

from __future__ import annotations

import zipfile
from pathlib import Path
from typing import Any

import click

from site_builder.cli.paper_sheets import checklist, count, interview, week
from site_builder.cli.papers import book, card, outdated
from site_builder.cli.shared import ERRORS, WRONG_USE, notebook_in, notebook_option, today_option


class _Papers(click.Group):
    """``print --outdated CARDS`` asks about what hangs on the wall, and prints nothing."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        """The option is a command of its own."""
        return super().parse_args(ctx, ["outdated" if one == "--outdated" else one for one in args])


@click.group(name="print", cls=_Papers, context_settings={"help_option_names": ["-h", "--help"]})
def print_() -> None:
    """Cards for the bench, a book for the shelf, an e-book for the phone."""


for command in (book, card, outdated, checklist, interview, week, count):
    print_.add_command(command)


@print_.command()
@notebook_option
@click.option("--output", "-o", type=click.Path(path_type=Path), default=None,
              help="The file to write (default: named after the shop, in this folder).")
@click.option("--with-errors", is_flag=True, help="Make it in spite of errors and mark the pages concerned.")
@today_option
@click.pass_context
def epub(context: click.Context, folder: Path, output: Path | None, with_errors: bool, today: Any) -> None:
    """The handbook as an e-book (EPUB 3.3), for any phone, tablet or reader."""
    from site_builder.ebook.epub import epub as book_of
    from site_builder.ebook.epub import is_ours
    from site_builder.handbook.build import BuildFailed
    from site_builder.handbook.opened import opened
    from site_builder.handbook.publishing.one_file import full, put_file
    from site_builder.handbook.publishing.place import Refused
    from site_builder.views.anchors import token

    root = notebook_in(folder)
    try:
        found = opened(root, today=today and today.date(), with_errors=with_errors)
    except BuildFailed as problem:
        click.echo(str(problem), err=True)
        context.exit(ERRORS)
    shop = found.site.notebook.shop
    named = token(str(shop.title))[:60].strip("-") if shop is not None and shop.title else ""
    place = output or Path(f"{named or 'handbook'}.epub")
    made = book_of(found.site, found.language)
    try:
        put_file(place, made, ours=is_ours, kind="e-book")
    except Refused as problem:
        click.echo(str(problem), err=True)
        context.exit(WRONG_USE)
    except OSError as problem:
        if not full(problem):
            raise
        click.echo(f"The disk is full: the e-book takes {len(made) / 1e6:.1f} MB. What stood there is as it was.",
                   err=True)
        context.exit(WRONG_USE)
    pages = sum(name.endswith(".xhtml") for name in zipfile.ZipFile(place).namelist())
    for line in found.warnings:
        click.echo(line, err=True)
    click.echo(f"{pages} pages, {len(made) / 1e6:.1f} MB: {place}")
