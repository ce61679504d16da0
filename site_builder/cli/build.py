"""``benchlore build``: the same build as ``mkdocs build``, aside and then swapped in."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from site_builder.cli.shared import ERRORS, OK, WRONG_USE, today_option
from site_builder.handbook.build import BuildFailed, Progress, build_handbook


@click.command()
@click.option("--config", "-f", type=click.Path(path_type=Path, dir_okay=False), default=Path("mkdocs.yml"),
              help="The settings of the handbook (default: mkdocs.yml).")
@click.option("--into", "-d", type=click.Path(path_type=Path, file_okay=False), default=None,
              help="Where the handbook goes (default: site_dir of the settings).")
@click.option("--with-errors", is_flag=True, help="Build in spite of errors and mark the pages concerned.")
@today_option
@click.pass_context
def build(context: click.Context, config: Path, into: Path | None, with_errors: bool, today: Any) -> None:
    """Make the handbook. A build that fails leaves the last good one as it was."""
    if not config.is_file():
        click.echo(f"There is no {config} here. `benchlore new shop DIR` writes one.", err=True)
        context.exit(WRONG_USE)
    with click.progressbar(length=100, label="Making the handbook", show_pos=False) as bar:
        shown = 0

        def tell(done: float) -> None:
            nonlocal shown
            step = int(done * 100) - shown
            if step > 0:
                bar.update(step)
                shown += step

        try:
            made = build_handbook(config, into=into, with_errors=with_errors, progress=Progress(tell),
                                  today=today and today.date())
        except BuildFailed as problem:
            failed: BuildFailed | None = problem
        else:
            failed = None
            tell(1.0)
    if failed is not None:
        click.echo(str(failed), err=True)
        context.exit(ERRORS)
    click.echo(made.summary)
    click.echo(f"Open {made.start}")
    context.exit(OK)


