"""What `sign`, `withdraw` and `log` share: an entry tried before it is written, and what may go wrong."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any, TypeVar

import click

from site_builder.analysis.analysis import Analysis
from site_builder.checks.engine import examine
from site_builder.cli.shared import ERRORS
from site_builder.notebook.finding import Finding, Level
from site_builder.notebook.kinds import RECORD_KINDS
from site_builder.notebook.model.records import Record
from site_builder.notebook.reader import read_text
from site_builder.notebook.tree import Map
from site_builder.notebook.validate import validate
from site_builder.quantity import NotationError, parse_date
from site_builder.skills.append import Appended, NotWritten
from site_builder.skills.book import Book, book_path
from site_builder.skills.chain import Wrong
from site_builder.skills.entry_dates import MEND
from site_builder.skills.entry_text import Unwritable, Value, entry_text
from site_builder.skills.keys import KeyProblem, Signer, key_file, open_key
from site_builder.skills.last import LastBroken
from site_builder.skills.sealing import NotSealed

F = TypeVar("F", bound=Callable[..., Any])
PASSPHRASE = "BENCHLORE_PASSPHRASE"

yes_option = click.option("--yes", "-y", is_flag=True, help="Ask nothing; what is not given stays out.")
date_option = click.option("--date", "on", help="The day, as 2026-05-09 (default: today).")
key_option = click.option(
    "--key", "key", type=click.Path(path_type=Path, dir_okay=False),
    help=f"The file with your key (default: in your own settings folder). The passphrase is asked for, or read "
         f"from {PASSPHRASE}.",
)


_MENDS = {"date-backward": "Enter it with the day of today, and say under `note` on which day it was."}
"""What to do at the bench about an entry that is not written yet, where the book has no mend for it."""


class Refused(Exception):
    """The command does not do it; the text says why."""


@contextmanager
def told(context: click.Context) -> Iterator[None]:
    """Say in words what went wrong, and leave with 1."""
    try:
        yield
    except (Refused, NotWritten, NotSealed, KeyProblem) as problem:
        click.echo(str(problem), err=True)
    except Unwritable as problem:
        click.echo(f"This cannot be written: {problem}", err=True)
    except LastBroken as problem:
        click.echo(f"{problem}, the small file with the last seal, cannot be understood. Bring it from an older copy.",
                   err=True)
    except OSError as problem:
        what = f"{problem.filename}: " if problem.filename else ""
        click.echo(f"{what}{problem.strerror or type(problem).__name__}.", err=True)
    else:
        return
    context.exit(ERRORS)


@dataclass(frozen=True, slots=True)
class Draft:
    """An entry that is not written yet: as the notebook would read it, and what would be wrong with it."""

    record: Record
    findings: tuple[Finding, ...]

    @property
    def errors(self) -> tuple[Finding, ...]:
        return tuple(found for found in self.findings if found.level is Level.ERROR)


def draft(surveyed: Analysis, kind: str, fields: Mapping[str, Value]) -> Draft:
    """Try an entry at the end of its book against all rules. Raises Refused, Unwritable."""
    record, found = read_draft(surveyed, kind, fields)
    notebook = surveyed.notebook
    books = {**notebook.books, kind: (*notebook.books.get(kind, ()), record)}
    tried = Analysis(replace(notebook, books=books), [], surveyed.today)
    above = record.at.line - 1
    fix = MEND.format(record.number)
    for one in examine(tried):
        if one.at.path == record.at.path and one.at.line > above:
            told = one.fix.replace(fix, "").strip()
            found.append(replace(one, fix=told or _MENDS.get(one.code, "")))
    return Draft(record, tuple(found))


def read_draft(surveyed: Analysis, kind: str, fields: Mapping[str, Value]) -> tuple[Record, list[Finding]]:
    """The entry as the notebook would read it. Raises Refused, Unwritable."""
    path = book_path(kind)
    entries = surveyed.notebook.books.get(kind, ())
    number = entries[-1].number + 1 if entries else 1
    above = max((entry.at.line for entry in entries), default=0) + 1000
    text = entry_text({kind: str(number), **fields})
    tree = read_text(text, path, above=above).trees[0]
    nouns = frozenset(word.lower() for word in surveyed.notebook.words)
    record, found = validate(RECORD_KINDS[kind], tree if isinstance(tree, Map) else Map(), nouns)
    if record is None or any(one.level is Level.ERROR for one in found):
        raise Refused("\n".join(_once(one) for one in found))
    return record, found


def _once(found: Finding) -> str:
    """What is wrong, and the mend if that is not said already."""
    return found.message if found.fix in found.message else f"{found.message} {found.fix}"


def day_given(on: str | None, today: date) -> str:
    """The date of an entry; nothing is entered for a day that is not yet come. Raises Refused."""
    if on is None:
        return today.isoformat()
    try:
        given = date.fromisoformat(on)
    except ValueError:
        raise Refused(f"`{on}` is no day. Write year, month, day: {_day_meant(on)}.") from None
    if given > today:
        raise Refused(f"{on} is not yet come; an entry is made for what has been.")
    return given.isoformat()


def _day_meant(on: str) -> str:
    try:
        parse_date(on)
    except NotationError as wrong:
        return wrong.fix or "2026-05-09"
    return "2026-05-09"


def whole_book(surveyed: Analysis, kind: str) -> Book | None:
    """The book, if it is as it was written. Raises Refused where it is not, or not under seal."""
    verdict = surveyed.verdicts.get(kind)
    if verdict is None:
        return None
    wrong = next((fault for fault in verdict.faults if fault.wrong is not Wrong.TORN), None)
    if wrong is not None:
        raise Refused(f"Nothing was written: the book is not as it was. {wrong.at.path}:{wrong.at.line}: "
                      f"{wrong.message} {wrong.fix}")
    if verdict.book is not None and verdict.book.entries and not verdict.sealed:
        raise Refused(f"Nothing was written: {verdict.book.path} is not under seal yet. Look through it, then bring "
                      "it under seal once with `benchlore seal`.")
    return verdict.book


def signer_for(surveyed: Analysis, who: str, file: Path | None) -> Signer | None:
    """The key of a signer, where one stands in ``people.yml``. Raises KeyProblem."""
    person = surveyed.notebook.people.get(who)
    if person is None or not person.key:
        if file is not None:
            raise KeyProblem(f"No public key of `{who}` stands in `people.yml`, so nothing can be signed with "
                             f"{file.name}. `benchlore key new {who}` makes one and writes it there.")
        return None
    file = file or key_file(keys_folder(), who)
    passphrase = os.environ.get(PASSPHRASE)
    if passphrase is None:
        passphrase = str(click.prompt(f"Passphrase of {who}", hide_input=True, default="", show_default=False))
    signer = open_key(file, passphrase)
    if signer.public not in person.key:
        raise KeyProblem(f"The key in {file} is not one that stands in `people.yml` for `{who}`.")
    return signer


def keys_folder() -> Path:
    """The user's own folder for keys, outside of any notebook."""
    return Path(click.get_app_dir("benchlore")) / "keys"


def say_written(kind: str, written: Appended) -> None:
    """Acknowledge an entry, and tell what was found torn."""
    if written.set_aside is not None:
        click.echo(f"A torn entry, left by a power cut, was found at the end of the book and set aside in "
                   f"{written.set_aside}. It was never acknowledged; look whether it must be entered anew.", err=True)
    click.echo(f"Written: {kind} {written.number}, seal {written.seal}")


def may_write(yes: bool) -> None:
    """Ask once more. Raises Refused."""
    if not yes and not click.confirm("Write it into the book?", default=False):
        raise Refused("Nothing was written.")
