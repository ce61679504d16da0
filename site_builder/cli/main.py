"""The commands and their options."""

from __future__ import annotations

import sys
from importlib import import_module

import click

from site_builder.cli.shared import OK, WRONG_USE

_HOMES = {
    "check": "check", "explain": "check", "questions": "questions", "build": "build", "new": "new", "schema": "schema",
    "sign": "sign", "withdraw": "sign", "log": "log", "key": "key", "seal": "verify", "verify": "verify",
    "without": "without", "lessons": "lessons", "batch": "batch",
    "season": "season", "print": "printing", "telling": "telling", "keep": "keep", "bench": "bench",
}
"""Each command and the module it is written in; that is loaded when the command is called."""
_NAMES = {"print": "print_"}
"""Commands whose name is one of Python's own."""


class _Commands(click.Group):
    """Loads only what is called: a check need not wait for what makes a handbook."""

    def list_commands(self, _context: click.Context) -> list[str]:
        return sorted(_HOMES)

    def get_command(self, _context: click.Context, name: str) -> click.Command | None:
        if name not in _HOMES:
            return None
        found: click.Command = getattr(import_module(f"site_builder.cli.{_HOMES[name]}"), _NAMES.get(name, name))
        return found


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="benchlore", prog_name="benchlore")
def cli() -> None:
    """A notebook for handing on a craft."""


def main() -> None:
    """Entry point. Whatever goes wrong, no traceback reaches the person at the bench."""
    try:
        code = cli.main(standalone_mode=False)
    except click.exceptions.Exit as leave:
        code = leave.exit_code
    except click.ClickException as wrong:
        wrong.show()
        code = WRONG_USE
    except click.Abort:
        click.echo("Stopped.", err=True)
        code = WRONG_USE
    except BrokenPipeError:  # the reader of our output has gone, as in `benchlore check | head`
        sys.stderr.close()
        code = OK
    except OSError as problem:  # what a command does not tell in words of its own
        where = f"{problem.filename}: " if problem.filename else ""
        told = f"{where}{problem.strerror or problem}. Look at its permissions and at the room on the disk."
        click.echo(told, err=True)
        code = WRONG_USE
    sys.exit(code if isinstance(code, int) else OK)

