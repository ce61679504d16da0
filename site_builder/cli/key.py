"""``benchlore key new``: a key for signatures, its public half into ``people.yml``."""

from __future__ import annotations

import os
from pathlib import Path

import click

from site_builder.cli.entering import PASSPHRASE, Refused, keys_folder, told
from site_builder.cli.shared import OK, notebook_in, notebook_option
from site_builder.notebook.atomic import write_over
from site_builder.notebook.finding import Level
from site_builder.notebook.reader import read_text
from site_builder.notebook.tree import Map, Seq, Text
from site_builder.skills.keys import key_file, new_key

PEOPLE = "skills/people.yml"


@click.group()
def key() -> None:
    """Keys with which people sign."""


@key.command("new")
@click.argument("person")
@click.option("--into", type=click.Path(path_type=Path, file_okay=False), default=None,
              help="The folder for the key (default: your own settings folder, outside of the notebook).")
@notebook_option
@click.pass_context
def new(context: click.Context, person: str, into: Path | None, folder: Path) -> None:
    """Make a key for PERSON. Only who has the file and knows the passphrase can sign with it.

    From the first signature on, every sign-off of PERSON must be signed. A lost key or passphrase cannot be
    brought back: move the file away and make a new key; the old public key stays beside the new one, so that what
    was signed with it can still be tried.
    """
    root = notebook_in(folder)
    with told(context):
        file = key_file(into or keys_folder(), person)
        if file.resolve().is_relative_to(root.resolve()):
            raise Refused("A key does not belong into the notebook, which others copy. Choose another folder.")
        people = root / PEOPLE
        text = people.read_text("utf-8") if people.exists() else ""
        with_key(text, person, "probe")  # before a key is made that nobody can write in
        passphrase = os.environ.get(PASSPHRASE)
        if passphrase is None:
            passphrase = str(click.prompt("Passphrase", hide_input=True, confirmation_prompt=True))
        signer = new_key(file, passphrase)
        write_over(people, text, with_key(text, person, signer.public))
        click.echo(f"The key lies in {file}; keep a copy of it where you keep such things, and the passphrase in mind.")
        click.echo(f"Its public half, {signer.public}, stands in {PEOPLE}. Print it or write it down too: by a copy "
                   "out of reach one sees whether somebody has exchanged it.")
    context.exit(OK)


def with_key(text: str, person: str, public: str) -> str:
    """``people.yml`` with one more public key for a person. Raises Refused where it is laid out too tightly."""
    reading = read_text(text, PEOPLE)
    tree = reading.trees[0] if len(reading.trees) == 1 else None
    people = tree.get(Text("people")) if isinstance(tree, Map) else None
    if not isinstance(people, Map) or any(found.level is Level.ERROR for found in reading.findings):
        raise Refused(f"{PEOPLE} cannot be read; `benchlore check` tells why.")
    if Text(person) not in people:
        raise Refused(f"`{person}` does not stand in {PEOPLE}. `benchlore new person {person}` enters somebody.")
    own = people[Text(person)]
    by_hand = Refused(f"Write the keys of `{person}` in {PEOPLE} one a line, without braces, and try again.")
    if not isinstance(own, Map) or own.flow:
        raise by_hand
    lines = text.split("\n")
    keys = list(own)
    if Text("key") in own:
        at = own.key("key")
        old = own[Text("key")]
        olds = [str(one) for one in (old if isinstance(old, Seq) else [old]) if one]
        line = at.line - 1 if at is not None else 0
        if not lines[line].rstrip().endswith(("]", *olds)):
            raise by_hand
        lines[line] = f"{' ' * (keys[0].column - 1)}key: [{', '.join((*olds, public))}]"
    else:
        before = keys[1] if len(keys) > 1 else keys[0]
        lines.insert(before.line - 1, f"{' ' * (keys[0].column - 1)}key: {public}")
    new_text = "\n".join(lines)
    again = read_text(new_text, PEOPLE).trees[0]
    if not isinstance(again, Map) or _without_key(again, person) != _without_key(tree, person):
        raise by_hand
    return new_text


def _without_key(tree: object, person: str) -> object:
    people = tree[Text("people")] if isinstance(tree, Map) else None
    if not isinstance(people, Map):
        return None
    return {str(id_): {str(k): v for k, v in own.items() if not (id_ == person and k == "key")}
            if isinstance(own, Map) else own for id_, own in people.items()}
