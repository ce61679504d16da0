"""``benchlore verify`` and ``benchlore seal``: whether the books are as they were written."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import click

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.cli.entering import Refused, told, yes_option
from site_builder.cli.shared import ERRORS, OK, WRONG_USE, day, notebook_in, notebook_option, today_option
from site_builder.skills.book import BOOK_FILES, Book, read_book
from site_builder.skills.chain import LEAST_DIGITS, Fault, against
from site_builder.skills.entry_dates import MEND, wrong_dates
from site_builder.skills.sealing import Work, seal_book, work_on
from site_builder.skills.verdict import Verdict, keys_of

_SHOWN = 5
"""So many faults of a book are told; the first is the one to look at."""

book_argument = click.argument("books", nargs=-1, type=click.Choice([*BOOK_FILES]), metavar="[BOOK]...")


@click.command()
@book_argument
@click.option("--against", "paper", help="A seal from a printed handbook: is what was printed still in the book? "
              f"{LEAST_DIGITS} digits of it are enough.")
@notebook_option
@today_option
@click.pass_context
def verify(context: click.Context, books: tuple[str, ...], paper: str | None, folder: Path, today: Any) -> None:
    """Tell whether the books are as they were written, and the sign-offs within the law.

    BOOK is sign-off, practice, trial, measurement or incident; without it all are looked at.
    """
    surveyed = analysis(notebook_in(folder), day(today, folder))
    verdicts = [one for one in surveyed.verdicts.values() if not books or one.kind in books]
    bad = False
    for one in verdicts:
        lines = [*_verdict_lines(surveyed, one)]
        bad |= len(lines) > 1 or (one.kind == "sign-off" and not one.sealed)
        for line in lines:
            click.echo(line)
    if not verdicts:
        click.echo("There are no books yet.")
    if paper is not None:
        if len("".join(paper.split())) < LEAST_DIGITS:
            click.echo(f"At least {LEAST_DIGITS} digits of the seal are needed.", err=True)
            context.exit(WRONG_USE)
        bad |= not _held_against(paper, verdicts)
    context.exit(ERRORS if bad else OK)


def _verdict_lines(surveyed: Analysis, verdict: Verdict) -> Iterator[str]:
    """One line for a book that is whole; more where something is wrong with it."""
    name = BOOK_FILES[verdict.kind]
    book = verdict.book
    if book is not None and not verdict.sealed:
        yield f"{name}: not under seal; nothing can be said of it. `benchlore seal` tells more."
        return
    wrong = [_fault_line(fault) for fault in verdict.faults]
    if verdict.kind == "sign-off":
        breaches = surveyed.law.breaches
        for file, shelf in (("skills/people.yml", surveyed.notebook.people), ("skills", surveyed.notebook.skills)):
            if not shelf and book is not None and book.entries:
                wrong.append(f"{file}: nothing can be read there, so nobody can say who was entitled to sign.")
        wrong += [f"{b.at.path}:{b.at.line}: against the law: {b.message} {b.fix}" for b in breaches]
    else:
        wrong += [f"{one.at.path}:{one.at.line}: wrong date: {told} {MEND.format(one.number)}"
                  for one, told in wrong_dates(surveyed.notebook.books.get(verdict.kind, ()), surveyed.today)]
    if wrong:
        yield f"{name}: NOT as it should be. The first thing that is wrong:"
        yield from (f"  {line}" for line in wrong[:_SHOWN])
        if len(wrong) > _SHOWN:
            yield f"  and {len(wrong) - _SHOWN} more."
    elif book is None or not book.entries:
        yield f"{name}: no entries."
    else:
        last = book.entries[-1]
        law = ", within the law" if verdict.kind == "sign-off" else ""
        day_of = last.text("date") or "no day"
        yield f"{name}: {_entries(len(book.entries))}, whole{law}. Last seal {last.seal} of {day_of}."


def _entries(count: int) -> str:
    return "1 entry" if count == 1 else f"{count} entries"


def _fault_line(fault: Fault) -> str:
    return f"{fault.at.path}:{fault.at.line}: {fault.wrong}: {fault.message} {fault.fix}"


def _held_against(paper: str, verdicts: Sequence[Verdict]) -> bool:
    for verdict in verdicts:
        number = against(verdict.book, paper) if verdict.book is not None else None
        if number is not None and verdict.book is not None:
            later = len([entry for entry in verdict.book.entries if entry.number > number])
            click.echo(f"The seal from paper is that of {verdict.kind} {number}; {later or 'nothing'} came after it. "
                       "If nothing is wrong above, all up to there is as it was when it was printed.")
            return True
    click.echo("No entry has the seal from paper: since it was printed a book was written anew or cut off.")
    return False


@click.command()
@book_argument
@yes_option
@notebook_option
@today_option
@click.pass_context
def seal(context: click.Context, books: tuple[str, ...], yes: bool, folder: Path, today: Any) -> None:
    """Bring entries that were written by hand under seal: an old book once, later what was added at its end.

    Each entry gets two lines, `previous` and `seal`; nothing it says is changed. From then on a change, a gap or a
    cut in the book shows. A seal laid today says nothing of what was changed before today, so look through the
    book first. BOOK is sign-off, practice, trial, measurement or incident; without it all are looked at.
    """
    root = notebook_in(folder)
    with told(context):
        surveyed = analysis(root, day(today, folder))
        keys = keys_of(surveyed.notebook)
        kinds = [kind for kind in books or BOOK_FILES if kind in surveyed.verdicts]
        todo = {kind: work for kind in kinds if not (work := work_on(read_book(root, kind), keys)).nothing}
        if "sign-off" in todo and todo["sign-off"].unsealed and surveyed.law.breaches:
            first = surveyed.law.breaches[0]
            raise Refused(f"Nothing was sealed. {first.at.path}:{first.at.line}: entry {first.number} is against the "
                          f"law of the book: {first.message} {first.fix} Before the book is under seal it can still "
                          "be put right by hand.")
        for kind, work in todo.items():
            click.echo(f"{BOOK_FILES[kind]}: {_work_told(work)}")
        if not todo:
            click.echo("Everything is under seal." if kinds else "There are no books yet.")
            context.exit(OK)
        if not yes and not click.confirm("Do it?", default=False):
            raise Refused("Nothing was sealed.")
        for kind in todo:
            seal_book(root, kind, keys)
            click.echo(_sealed_told(read_book(root, kind)))
    context.exit(OK)


def _work_told(work: Work) -> str:
    parts = []
    if work.book.torn is not None:
        parts.append("a torn entry at the end is set aside in a file beside the book")
    if work.unsealed:
        first, last = work.unsealed[0].number, work.unsealed[-1].number
        many = f"entries {first} to {last} are" if first != last else f"entry {first} is"
        parts.append(f"{many} brought under seal, as they stand there now" if first != last
                     else f"{many} brought under seal, as it stands there now")
    if work.unnoted and not work.unsealed:
        parts.append("the last seal is noted anew; hold it against a printed handbook first, if there is one")
    return "; ".join(parts) + "."


def _sealed_told(book: Book) -> str:
    last = book.entries[-1] if book.entries else None
    return f"{BOOK_FILES[book.kind]}: last seal {last.seal}" if last is not None else f"{BOOK_FILES[book.kind]}: empty"
