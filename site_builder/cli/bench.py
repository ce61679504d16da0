"""``benchlore bench``: the notebook in a browser, to be written in."""

from __future__ import annotations

import webbrowser
from pathlib import Path
from typing import Any

import click

from site_builder.cli.shared import OK, notebook_at, notebook_option, path_argument, settled_day, today_option
from site_builder.start_files import START_FILES


@click.command()
@path_argument
@click.option("--in-the-shop", is_flag=True, help="Let phones of the shop's own network in, each once, by a square.")
@click.option("--host", default="", help="The address of this machine in the shop's network, if it is not found.")
@click.option("--port", type=click.IntRange(1, 65535), help="Where to listen (default: 8765, or any that is free).")
@click.option("--open", "opens", is_flag=True, help="Open it in the browser.")
@click.option("--forget-pin", metavar="PERSON", help="Take away somebody's forgotten PIN, and do nothing else.")
@notebook_option
@today_option
@click.pass_context
def bench(
    context: click.Context, path: Path | None, in_the_shop: bool, host: str, port: int | None, opens: bool,
    forget_pin: str | None, folder: Path, today: Any,
) -> None:
    """Open the notebook in a browser and write in it; in an empty folder a shop is begun.

    Ctrl+C ends it; nothing that was acknowledged is lost.
    """
    from site_builder.bench.serve import serve  # slow to load, and no other command needs it

    chosen = path if path is not None else folder
    root = chosen.resolve() if is_bare(chosen) else notebook_at(path, folder)[0]
    day = today.date() if today is not None else settled_day(root / "mkdocs.yml")
    own = Path(click.get_app_dir("benchlore"))
    try:
        served = serve(root, own, port=port, in_the_shop=in_the_shop, day=day, host=host)
    except OSError as problem:
        raise click.ClickException(f"The bench cannot be opened: {problem.strerror or problem}. "
                                   "Choose another port with --port.") from None
    if forget_pin is not None:
        served.stop()
        had = served.bench.pins.forget(forget_pin)
        click.echo(f"The PIN of {forget_pin} is gone." if had else f"{forget_pin} has no PIN.")
        context.exit(OK)
    click.echo(f"The bench is open: {served.address}")
    if in_the_shop:
        click.echo(f"Fingerprint of its certificate: {served.fingerprint}")
    click.echo("Ctrl+C closes it.")
    if opens:
        webbrowser.open(served.address)
    try:
        served.run()
    except KeyboardInterrupt:
        served.stop()
        click.echo("The bench is closed.")
    context.exit(OK)


def is_bare(folder: Path) -> bool:
    """Whether a shop may be begun here: nothing of anybody's stands in it but what opens it, and what systems hide."""
    return folder.is_dir() and all(
        one.name in START_FILES or one.match("benchlore-*.whl") or one.name.startswith(".") or
        one.name.lower() in ("desktop.ini", "thumbs.db") for one in folder.iterdir())
