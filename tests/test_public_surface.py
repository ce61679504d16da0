"""What others may lean on: the commands with their options, the keys of the format, and what Python may import.

Everything of it stands in ``public_surface.txt``. A change is made by hand there, or written anew with
``BENCHLORE_NEW_PAGES=1`` and then read: nothing of it changes unseen.
"""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

import click

import site_builder
from site_builder.cli.main import cli
from site_builder.notebook.kinds import RECORD_KINDS, models
from site_builder.notebook.model.entry import Entry, keys_of

FILE = Path(__file__).parent / "public_surface.txt"


def _commands(command: click.Command, name: str) -> Iterator[str]:
    told = sorted("/".join(sorted(one.opts + one.secondary_opts)) if isinstance(one, click.Option)
                  else one.human_readable_name for one in command.params)
    yield f"{name}: {', '.join(told)}".rstrip(": ")
    if isinstance(command, click.Group):
        context = click.Context(command)
        for inner in sorted(command.list_commands(context)):
            found = command.get_command(context, inner)
            assert found is not None
            yield from _commands(found, f"{name} {inner}")


def _keys() -> Iterator[str]:
    for kind, model in {**models(), **RECORD_KINDS}.items():
        yield f"{kind}: {', '.join(sorted(keys_of(model)))}"
    todo = [Entry]
    found: dict[str, type[Entry]] = {}
    while todo:
        for model in todo.pop().__subclasses__():
            if model.__module__.startswith("site_builder.notebook."):
                found[model.__name__] = model
                todo.append(model)
    for name in sorted(found):
        yield f"{name}: {', '.join(sorted(keys_of(found[name])))}"


def test_nothing_that_others_lean_on_changes_unseen() -> None:
    made = "\n".join(("# Python", *site_builder.__all__, "", "# Commands", *_commands(cli, "benchlore"), "",
                      "# Keys of the format", *_keys(), ""))
    if os.environ.get("BENCHLORE_NEW_PAGES") == "1":
        FILE.write_text(made, encoding="utf-8")
    assert made.splitlines() == FILE.read_text("utf-8").splitlines()
