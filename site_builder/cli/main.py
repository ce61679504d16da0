"""The commands and their options."""

from __future__ import annotations

import sys

import click

from site_builder.cli.batch import batch
from site_builder.cli.build import build
from site_builder.cli.check import check, explain
from site_builder.cli.key import key
from site_builder.cli.lessons import lessons
from site_builder.cli.log import log
from site_builder.cli.new import new
from site_builder.cli.questions import questions
from site_builder.cli.schema import schema
from site_builder.cli.shared import OK, WRONG_USE
from site_builder.cli.sign import sign, withdraw
from site_builder.cli.verify import seal, verify
from site_builder.cli.without import without


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="benchlore", prog_name="benchlore")
def cli() -> None:
    """A notebook for handing on a craft."""


for command in (check, explain, questions, build, new, schema, sign, withdraw, log, key, seal, verify, without,
                lessons, batch):
    cli.add_command(command)


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
    sys.exit(code if isinstance(code, int) else OK)

