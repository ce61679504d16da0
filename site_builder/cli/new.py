"""``benchlore new``: a shop that builds at once, or one more thing for a notebook. Never overwrites."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import click

from site_builder.cli.shared import notebook_in, notebook_option
from site_builder.cli.templates import KINDS_OF_TOOL, person_lines, scalar, text_for
from site_builder.notebook.atomic import write_new, write_over
from site_builder.notebook.model.leaves import ID
from site_builder.notebook.schema import write_schemas

STARTER = Path(__file__).parent / "starter"

yes_option = click.option("--yes", "-y", is_flag=True, help="Ask nothing; leave open what is not given.")
title_option = click.option("--title", help="Its name, as people say it.")


def _id(_context: click.Context, _option: click.Parameter, value: str) -> str:
    if not ID.match(value):
        better = re.sub(r"[^a-z0-9]+", "-", value.lower()).strip("-")
        raise click.BadParameter(
            f"`{value}` is not an id: small letters, digits and hyphens, a letter first. Perhaps `{better}`."
        )
    return value


id_argument = click.argument("id_", metavar="ID", callback=_id)


@click.group()
def new() -> None:
    """Start a notebook, or add a thing to one."""


@new.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option("--title", default="", help="The name of the shop, as on the cover of the handbook.")
def shop(folder: Path, title: str) -> None:
    """A small complete notebook in a new folder; it builds at once and shows what to change."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise click.UsageError(f"{folder} is not empty. Choose a new folder; nothing was written.")
    name = folder.resolve().name
    id_ = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")
    id_ = id_ if ID.match(id_) else "shop"
    title = " ".join(title.split()) or name.replace("-", " ").replace("_", " ").capitalize()
    shutil.copytree(STARTER, folder, dirs_exist_ok=True, ignore=shutil.ignore_patterns("__pycache__"))
    for file in (folder / "mkdocs.yml", folder / "procedures" / "shop.yml"):
        text = file.read_text("utf-8").replace("TITLE", scalar(title)).replace("shop: ID", f"shop: {id_}")
        file.write_text(text, "utf-8")
    (folder / ".gitignore").write_text("site/\n.cache/\nskills/records/.*.lock\n", "utf-8")
    write_schemas(folder)
    click.echo(f"A notebook stands in {folder}. Build it and open it:")
    click.echo(f"  cd {folder}")
    click.echo("  benchlore build")
    click.echo("Then change procedures/bracket/file-the-plate.yml, or begin with "
               "`benchlore new procedure ID`.")


@new.command()
@id_argument
@title_option
@click.option("--part", help="The part it works on (its folder).")
@yes_option
@notebook_option
def procedure(id_: str, title: str | None, part: str | None, yes: bool, folder: Path) -> None:
    """A procedure: a title and steps."""
    root = notebook_in(folder)
    title = _told(title, "What is done, as an instruction", _spoken(id_), yes)
    part = _told(part, "Which part is worked on", "", yes)
    steps = [] if yes else _steps()
    _write(root, f"procedures/{part or 'shared'}/{id_}.yml", text_for("procedure", id_, title, part=part, steps=steps))


@new.command()
@id_argument
@title_option
@click.option("--kind", type=click.Choice(KINDS_OF_TOOL), help="What kind of tool it is.")
@yes_option
@notebook_option
def tool(id_: str, title: str | None, kind: str | None, yes: bool, folder: Path) -> None:
    """A machine, hand tool, gauge, tooling, protection or reference piece."""
    root = notebook_in(folder)
    if kind is None:
        kind = "hand-tool" if yes else click.prompt("What is it", type=click.Choice(KINDS_OF_TOOL))
    _write(root, f"tools/{id_}.yml", text_for(str(kind), id_, _told(title, "Its name", _spoken(id_), yes)))


@new.command()
@id_argument
@title_option
@yes_option
@notebook_option
def material(id_: str, title: str | None, yes: bool, folder: Path) -> None:
    """A material."""
    root = notebook_in(folder)
    _write(root, f"tools/{id_}.yml", text_for("material", id_, _told(title, "Its name", _spoken(id_), yes)))


@new.command()
@id_argument
@title_option
@click.option("--covers", multiple=True, help="A procedure that one can do who has it; may be given again.")
@yes_option
@notebook_option
def skill(id_: str, title: str | None, covers: tuple[str, ...], yes: bool, folder: Path) -> None:
    """A skill with its checklist."""
    root = notebook_in(folder)
    title = _told(title, "Its name", _spoken(id_), yes)
    if not covers and not yes:
        covers = tuple(click.prompt("Which procedures can one do who has it (ids)", default="").split())
    _write(root, f"skills/{id_}.yml", text_for("skill", id_, title, covers=covers))


@new.command()
@id_argument
@click.option("--name", help="The full name.")
@click.option("--born", help="Date or year of birth.")
@yes_option
@notebook_option
def person(id_: str, name: str | None, born: str | None, yes: bool, folder: Path) -> None:
    """A person; added at the end of skills/people.yml."""
    root = notebook_in(folder)
    file = root / "skills" / "people.yml"
    name = _told(name, "The full name", _spoken(id_), yes)
    born = _told(born, "Born (year, or date as 2011-06-19)", "", yes)
    lines = person_lines(id_, scalar(name), born)
    if not file.exists():
        _write(root, "skills/people.yml", "people:\n" + lines)
        return
    text = file.read_text("utf-8")
    if re.search(rf"^  {re.escape(id_)}:", text, re.MULTILINE):
        raise click.UsageError(f"`{id_}` stands in {file} already; nothing was written.")
    write_over(file, text, text.rstrip("\n") + "\n" + lines)
    click.echo(f"Added to {file}")


def _write(root: Path, path: str, text: str) -> None:
    file = root / path
    if not write_new(file, text):
        raise click.UsageError(f"{file} stands there already; nothing was written.")
    click.echo(f"Written: {file}")


def _told(given: str | None, question: str, default: str, yes: bool) -> str:
    if given is not None:
        return " ".join(given.split())
    return default if yes else " ".join(click.prompt(question, default=default).split())


def _steps() -> list[str]:
    click.echo("The steps, one a line, as you would say them to a learner. An empty line ends.")
    steps: list[str] = []
    while True:
        line = click.prompt(f"{len(steps) + 1}", default="", show_default=False).strip()
        if not line:
            return steps
        steps.append(line)


def _spoken(id_: str) -> str:
    return id_.replace("-", " ").capitalize()
