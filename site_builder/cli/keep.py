"""``benchlore keep``: one folder to burn, copy or bury; tried, mended from another copy, and started from again."""

from __future__ import annotations

from pathlib import Path
from typing import Any, NoReturn

import click

from site_builder.cli.shared import ERRORS, OK, WRONG_USE, notebook_in, notebook_option, today_option

_TOLD = 200
"""So many troubles are told one by one."""


@click.command()
@click.argument("kept", type=click.Path(path_type=Path), metavar="DIR")
@click.argument("new_folder", required=False, default=None, type=click.Path(path_type=Path), metavar="[NEWDIR]")
@click.option("--check", is_flag=True, help="Say what of the keeping in DIR is damaged, missing, renamed or added.")
@click.option("--from", "other", type=click.Path(path_type=Path), default=None,
              help="With --check: another copy, to see what it has whole.")
@click.option("--mend", is_flag=True,
              help="With --check: take what is broken here from the other copy, and give what was renamed its name "
                   "again. A damaged file is put aside, never deleted.")
@click.option("--restore", is_flag=True, help="Write the notebook kept in DIR into NEWDIR.")
@click.option("--as-far-as-whole", is_flag=True, help="With --restore: even where some of it is damaged.")
@click.option("--with-errors", is_flag=True, help="Keep it in spite of errors in the notebook; its pages say so.")
@notebook_option
@today_option
def keep(
    kept: Path, new_folder: Path | None, check: bool, other: Path | None, mend: bool, restore: bool,
    as_far_as_whole: bool, with_errors: bool, folder: Path, today: Any,
) -> None:
    """Keep the notebook and all that is made of it in DIR, to be read in thirty years.

    Whether photos that tell where they were taken, and people's voices, may go in, the shop says under `archive:` in
    `procedures/shop.yml`.
    """
    if check and restore:
        raise click.UsageError("Check first, then restore: one of --check and --restore at a time.")
    if (other is not None or mend) and not check:
        raise click.UsageError("--from and --mend go with --check.")
    if restore != (new_folder is not None):
        raise click.UsageError("`benchlore keep --restore DIR NEWDIR` writes the notebook kept in DIR into NEWDIR.")
    if as_far_as_whole and not restore:
        raise click.UsageError("--as-far-as-whole goes with --restore.")
    if check or restore:
        from site_builder.handbook.publishing.publish import put_right

        put_right(kept.absolute().parent, lambda line: click.echo(line, err=True))
    if check:
        _check(kept, other, mend)
    elif restore:
        assert new_folder is not None
        _restore(kept, new_folder, as_far_as_whole)
    else:
        _keep(kept, folder, today, with_errors)


def _keep(kept: Path, folder: Path, today: Any, with_errors: bool) -> None:
    from site_builder.archive.keep import keep as keep_notebook
    from site_builder.archive.place import NotKept
    from site_builder.handbook.build import BuildFailed
    from site_builder.handbook.publishing.place import Refused

    try:
        made = keep_notebook(notebook_in(folder), kept, today=today and today.date(), with_errors=with_errors,
                             step=lambda what: click.echo(f"{what} …", err=True),
                             tell=lambda line: click.echo(line, err=True))
    except BuildFailed as problem:
        _leave(str(problem), ERRORS)
    except (Refused, NotKept) as problem:
        _leave(str(problem))
    for line in (*made.told, *made.contents.lacks):
        click.echo(line, err=True)
    out = made.contents.out
    for names, what, key in (
        (out.places, "because they tell where they were taken, or may", "places"),
        (out.voices, "because nobody has written that those who are heard agree", "voices"),
    ):
        if names:
            click.echo(f"Left out {what}: {', '.join(names)}. If the shop wants them in, write "
                       f"`archive: {{{key}: yes}}` into procedures/shop.yml.")
    for name in made.contents.strange:
        click.echo(f"Left out, since it is no file of the notebook: {name}.")
    click.echo(f"{made.files} files, {made.size / 1e6:.1f} MB: {made.place}")
    click.echo("Make three copies, one of them in another house, and try each once a year: "
               f"`benchlore keep --check {kept}`.")


def _check(kept: Path, other: Path | None, mend: bool) -> None:
    from site_builder.archive.check import NoKeeping, troubles, with_other
    from site_builder.archive.mend import mend as mend_keeping
    from site_builder.handbook.publishing.copying import Damaged

    try:
        found = troubles(kept)
        if other is not None:
            found = with_other(found, kept, other)
        if mend and found:
            try:
                for line in mend_keeping(kept, found):
                    click.echo(line)
            except (Damaged, OSError) as problem:
                _leave(f"Not mended further: {problem}", ERRORS)
            found = troubles(kept)
    except NoKeeping as problem:
        _leave(str(problem))
    for one in found[:_TOLD]:
        has = "" if other is None or mend or one.kind in ("added", "renamed") else \
            f"; whole in {other}" if one.better is not None else f"; not whole in {other} either"
        click.echo(one.line() + has)
    if len(found) > _TOLD:
        click.echo(f"… and {len(found) - _TOLD} more.")
    if not found:
        click.echo("Whole: every file is what it was when it was kept, and nothing was added.")
        raise click.exceptions.Exit(OK)
    counted = len(found)
    click.echo(f"{counted} {'thing is' if counted == 1 else 'things are'} not as kept.{_advice(other, mend)}")
    raise click.exceptions.Exit(ERRORS)


def _advice(other: Path | None, mend: bool) -> str:
    if mend:
        return ""
    if other is None:
        return " If you have another copy, see what it still has: add `--from COPY`."
    return " To take from the other copy what it has whole, add `--mend`."


def _restore(kept: Path, into: Path, as_far: bool) -> None:
    from site_builder.archive.check import NoKeeping
    from site_builder.archive.place import NotKept
    from site_builder.archive.restore import restore
    from site_builder.handbook.publishing.place import Refused

    try:
        done = restore(kept, into, as_far_as_whole=as_far)
    except (NoKeeping, Refused, NotKept) as problem:
        _leave(str(problem))
    for path in done.damaged:
        click.echo(f"not whole {path}")
    if not done.files:
        _leave(f"Nothing was written. See with `benchlore keep --check {kept} --from COPY` whether another copy has "
               "it; or add --as-far-as-whole.", ERRORS)
    click.echo(f"{done.files} files, each as it was kept: {into}")
    raise click.exceptions.Exit(ERRORS if done.damaged else OK)


def _leave(said: str, code: int = WRONG_USE) -> NoReturn:
    click.echo(said, err=True)
    raise click.exceptions.Exit(code)
