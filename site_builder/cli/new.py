"""``benchlore new``: a shop that builds at once, or one more thing for a notebook. Never overwrites."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import click

from site_builder.cli.shared import notebook_in, notebook_option
from site_builder.cli.templates import KINDS_OF_TOOL, person_lines, scalar, text_for
from site_builder.notebook.atomic import write_new, write_over
from site_builder.notebook.files import NotebookFile, notebook_files
from site_builder.notebook.load import load
from site_builder.notebook.model.parsed_values import ID, id_from
from site_builder.notebook.reader import RECORDS, decode, read_text
from site_builder.notebook.schema import write_schemas
from site_builder.notebook.tree import Map, Text
from site_builder.quantity import NotationError, parse_date
from site_builder.start_files import lay_start_files

_LONGEST = 100
_OF_WINDOWS = re.compile(r"con|prn|aux|nul|com[0-9]|lpt[0-9]")
"""Names that no file can have there, whatever its ending (from memory)."""

STARTER = Path(__file__).parent / "starter"

yes_option = click.option("--yes", "-y", is_flag=True, help="Ask nothing; leave open what is not given.")
title_option = click.option("--title", help="Its name, as people say it.")


def _id(_context: click.Context, _option: click.Parameter, value: str) -> str:
    if not ID.match(value):
        better = id_from(value)
        raise click.BadParameter(
            f"`{value}` is not an id: small letters, digits and hyphens, a letter first."
            + (f" Perhaps `{better}`." if better else "")
        )
    if len(value) > _LONGEST:
        raise click.BadParameter(f"An id names a file, and has at most {_LONGEST} letters; this one has {len(value)}.")
    if _OF_WINDOWS.fullmatch(value):
        raise click.BadParameter(f"Windows keeps the name `{value}` for itself and would not open the file. "
                                 f"Perhaps `{value}-1`.")
    return value


def _part(context: click.Context, option: click.Parameter, value: str | None) -> str | None:
    return _id(context, option, value) if value else value


def _date(_context: click.Context, _option: click.Parameter, value: str | None) -> str | None:
    try:
        return parse_date(value).text if value else value
    except NotationError as wrong:
        raise click.BadParameter(wrong.message) from None


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
    id_ = id_from(name) or "shop"
    title = " ".join(title.split()) or name.replace("-", " ").replace("_", " ").capitalize()
    shutil.copytree(STARTER, folder, dirs_exist_ok=True, ignore=shutil.ignore_patterns("__pycache__"))
    for file in (folder / "mkdocs.yml", folder / "procedures" / "shop.yml"):
        text = file.read_text("utf-8").replace("TITLE", scalar(title)).replace("shop: ID", f"shop: {id_}")
        file.write_text(text, "utf-8")
    (folder / ".gitignore").write_text("site/\n.cache/\n.benchlore-making-*/\nskills/records/.*.lock\n", "utf-8")
    write_schemas(folder)
    lay_start_files(folder)
    click.echo(f"A notebook stands in {folder}. Build it and open it:")
    click.echo(f'  cd "{folder}"' if " " in str(folder) else f"  cd {folder}")
    click.echo("  benchlore build")
    click.echo("Or open `Open the bench` by double click (.sh on Linux, .command on a Mac, .bat on Windows).")
    click.echo("Then change procedures/bracket/file-the-plate.yml, or begin with "
               "`benchlore new procedure ID`.")


@new.command()
@id_argument
@title_option
@click.option("--part", callback=_part, help="The part it works on (its folder).")
@yes_option
@notebook_option
def procedure(id_: str, title: str | None, part: str | None, yes: bool, folder: Path) -> None:
    """A procedure: a title and steps."""
    root = notebook_in(folder)
    _is_free(root, id_)
    title = _told(title, "What is done, as an instruction", _spoken(id_), yes)
    part = _part(click.get_current_context(), _option("part"), _told(part, "Which part is worked on", "", yes)) or ""
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
    _is_free(root, id_)
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
    _is_free(root, id_)
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
    _is_free(root, id_)
    title = _told(title, "Its name", _spoken(id_), yes)
    if not covers and not yes:
        covers = tuple(click.prompt("Which procedures can one do who has it (ids)", default="").split())
    _write(root, f"skills/{id_}.yml", text_for("skill", id_, title, covers=covers))


@new.command()
@id_argument
@click.option("--name", help="The full name.")
@click.option("--born", callback=_date, help="Date or year of birth.")
@yes_option
@notebook_option
def person(id_: str, name: str | None, born: str | None, yes: bool, folder: Path) -> None:
    """A person; added at the end of skills/people.yml."""
    root = notebook_in(folder)
    _is_free(root, id_)
    file = root / "skills" / "people.yml"
    name = _told(name, "The full name", _spoken(id_), yes)
    born = _told(born, "Born (year, or date as 2011-06-19)", "", yes)
    born = _date(click.get_current_context(), _option("born"), born) or ""
    lines = person_lines(id_, scalar(name), born)
    if not file.exists():
        _write(root, "skills/people.yml", "people:\n" + lines)
        return
    if not file.is_file():  # a folder, or a pipe, from which a reader would wait for ever
        raise click.UsageError(f"{file} is no ordinary file; nothing was written. Move it away, then try again.")
    text, wrong = decode(file.read_bytes(), "skills/people.yml")
    if wrong:
        first = wrong[0]
        raise click.UsageError(f"{file}, line {first.at.line}: {first.message} {first.fix} Nothing was written.")
    if any(line.startswith(f"  {id_}:") for line in text.splitlines()):
        raise click.UsageError(f"`{id_}` stands in {file} already; nothing was written.")
    longer = text.rstrip("\n") + "\n" + lines
    if not _stands_among(id_, longer):  # people between braces, or further in than two blanks
        raise click.UsageError(f"{file} is laid out in another way than this command knows; nothing was written. "
                               f"Add `{id_}` there by hand, as the others stand.")
    write_over(file, text, longer)
    click.echo(f"Added to {file}")


def _option(name: str) -> click.Parameter:
    return next(one for one in click.get_current_context().command.params if one.name == name)


def _stands_among(id_: str, text: str) -> bool:
    """Whether the file would read as it should, with this person beside the others."""
    reading = read_text(text, "skills/people.yml")
    tree = reading.trees[0] if reading.whole and reading.trees and not reading.findings else None
    people = tree.get(Text("people")) if isinstance(tree, Map) and len(tree) == 1 else None
    return isinstance(people, Map) and id_ in people


def _is_free(root: Path, id_: str) -> None:
    """Raises UsageError where something of the notebook has this id, or one that some disks take for the same."""
    said = load(root).notebook
    shelves = (said.procedures, said.changes, said.orders, said.skills, said.materials, said.tools)
    taken = {str(entry.id): f"in {entry.at.path}" for shelf in shelves for entry in shelf.values()}
    taken |= {str(one): "among the people, in skills/people.yml" for one in said.people}
    taken |= {str(one): f"among the parts, in {said.shop.at.path}" for one in said.parts if said.shop is not None}
    if said.shop is not None:
        taken[str(said.shop.shop)] = f"in {said.shop.at.path}"
    for file in notebook_files(root):
        if isinstance(file, NotebookFile) and not file.path.startswith(RECORDS):
            taken.setdefault(Path(file.path).stem, f"in {file.path}")  # also one that cannot be read yet
    for other, where in taken.items():
        if other.casefold() == id_.casefold():
            same = "" if other == id_ else f", and sticks and some systems do not tell it from `{id_}`"
            raise click.UsageError(f"`{other}` stands there already, {where}{same}; nothing was written. Choose "
                                   "another id.")


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
