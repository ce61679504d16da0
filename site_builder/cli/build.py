"""``benchlore build``: the same build as ``mkdocs build``, made aside and then put in its place."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from site_builder.cli.shared import ERRORS, OK, WRONG_USE, notebook_at, notebook_in, path_argument, today_option
from site_builder.handbook.build import BuildFailed, NoPlace, Progress, build_handbook


@click.command()
@path_argument
@click.option("--config", "-f", type=click.Path(path_type=Path, dir_okay=False), default=None,
              help="The settings of the handbook (default: mkdocs.yml of the notebook).")
@click.option("--into", "-d", type=click.Path(path_type=Path), default=None,
              help="Where the handbook goes: a folder that is new, empty or a handbook, or a USB stick "
                   "(default: site_dir of the settings).")
@click.option("--with-errors", is_flag=True, help="Build in spite of errors and mark the pages concerned.")
@today_option
@click.pass_context
def build(
    context: click.Context, path: Path | None, config: Path | None, into: Path | None, with_errors: bool, today: Any,
) -> None:
    """Make the handbook. A build that fails leaves the last good one as it was.

    PATH is the notebook, where it is not the folder one stands in.
    """
    if path is not None and config is None:
        config = notebook_at(path, path)[0] / "mkdocs.yml"
    config = config or Path("mkdocs.yml")
    if not config.is_file() and config == Path("mkdocs.yml"):
        config = notebook_in(Path()) / config
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

        def say(line: str) -> None:
            click.echo(f"\n{line}", err=True)

        try:
            made = build_handbook(config, into=into, with_errors=with_errors, progress=Progress(tell),
                                  today=today and today.date(), tell=say)
        except BuildFailed as problem:
            failed: BuildFailed | None = problem
        else:
            failed = None
            tell(1.0)
    if failed is not None:
        click.echo(str(failed), err=True)
        context.exit(WRONG_USE if isinstance(failed, NoPlace) else ERRORS)
    click.echo(made.summary)
    click.echo(f"Open {made.start}")
    context.exit(OK)
