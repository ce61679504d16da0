"""``benchlore telling``: what a transcript suggests, sentence by sentence; and taking one into the notebook."""

from __future__ import annotations

import textwrap
from collections.abc import Mapping, Sequence
from pathlib import Path

import click

from site_builder.analysis.analysis import analysis
from site_builder.cli import recogniser
from site_builder.cli.recogniser import SOUNDS
from site_builder.cli.shared import day, notebook_in, notebook_option
from site_builder.notebook.atomic import write_new
from site_builder.notebook.model.parsed_values import ID
from site_builder.notebook.moments import State
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.reader import decode, read_bytes
from site_builder.tellings.cue import Cue, Transcript, TranscriptError
from site_builder.tellings.kinds import Understood
from site_builder.tellings.timing import clock_text
from site_builder.tellings.transcript import read_transcript
from site_builder.views.understood import understood

FOLDER = "procedures/tellings"


@click.command()
@notebook_option
@click.argument("what")
@click.option("--into", "name", help="Take the file into the notebook under this name (small letters and hyphens).")
@click.option("--teller", help="Who tells: an id of skills/people.yml.")
@click.option("--title", help="What it is about, in a line.")
@click.option("--open", "only_open", is_flag=True, help="Of a telling of the notebook, only what is still open.")
def telling(folder: Path, what: str, name: str | None, teller: str | None, title: str | None, only_open: bool) -> None:
    """Show what each sentence of a telling most likely is, and the quantities in it.

    WHAT is a transcript (WebVTT, SubRip or plain text), or the name of a telling of the notebook; a recording, where a
    program that writes down speech is installed. Nothing is written
    but with --into, and then only new files.
    """
    root = notebook_in(folder)
    surveyed = analysis(root, day(None, folder))
    notebook = surveyed.notebook
    states: Mapping[str, State] = {}
    if what in notebook.tellings:
        if what not in notebook.transcripts:
            raise click.UsageError(f"`{what}` has no transcript that can be read; `benchlore check` says why.")
        transcript, states = notebook.transcripts[what], surveyed.coverage[what].states
    else:
        text, transcript = _read(Path(what), notebook)
        if name is not None:
            _take_in(root, notebook, name, Path(what), text, teller, title)
    found = understood(surveyed, transcript.cues)
    _show([one for one in found if not only_open or states.get(one.cue.id) == "open"], states)
    for remark in transcript.remarks:
        click.echo(f"Line {remark.line}: {remark.message}")


def _read(file: Path, notebook: Notebook) -> tuple[str, Transcript]:
    if not file.exists():
        known = f" Its tellings are: {', '.join(notebook.tellings)}." if notebook.tellings else ""
        raise click.UsageError(f"`{file}` is neither a file nor a telling of this notebook.{known}")
    if file.suffix.lower() in SOUNDS:
        heard = recogniser.words_of(file)
        return heard, _transcript(file, heard)
    data, problem = read_bytes(file, str(file))
    if data is None:
        raise click.UsageError(str(problem.message if problem is not None else f"`{file}` cannot be read."))
    text, found = decode(data, str(file))
    if found:
        raise click.UsageError(f"{file}:{found[0].at.line}: {found[0].message} {found[0].fix}")
    return text, _transcript(file, text)


def _transcript(file: Path, text: str) -> Transcript:
    try:
        return read_transcript(text)
    except TranscriptError as error:
        raise click.UsageError(f"{file}:{error.line}: {error.message} {error.fix}") from None


def _take_in(
    root: Path, notebook: Notebook, name: str, file: Path, text: str, teller: str | None, title: str | None
) -> None:
    """A copy of the transcript and the file that names it. Nothing that is there is written over."""
    if not ID.match(name):
        raise click.UsageError(f"`{name}` is no name: small letters, figures and hyphens, as `casting-the-arm`.")
    if teller is not None and teller not in notebook.people:
        people = ", ".join(notebook.people) or "it is empty"
        raise click.UsageError(f"`{teller}` is nobody in skills/people.yml: {people}.")
    words = root / FOLDER / f"{name}{'.vtt' if file.suffix.lower() in SOUNDS else file.suffix or '.txt'}"
    named = root / FOLDER / f"{name}.yml"
    for one in (words, named):
        if one.exists():
            raise click.UsageError(f"{one.relative_to(root).as_posix()} is there already; choose another name.")
    lines = [f"telling: {name}", f"title: {_quoted(title or name.replace('-', ' ').capitalize())}"]
    lines += [f"teller: {teller}"] if teller is not None else []
    lines += [f"transcript: {words.name}"]
    if not write_new(words, text) or not write_new(named, "\n".join(lines) + "\n"):
        raise click.UsageError(f"{FOLDER}/{name} was written by somebody else meanwhile; choose another name.")
    click.echo(f"Written: {words.relative_to(root).as_posix()} and {named.relative_to(root).as_posix()}.\n")


def _quoted(title: str) -> str:
    """In quotes, whatever is in it."""
    plain = " ".join(title.split())
    return "'" + plain.replace("'", "''") + "'"


def _show(found: Sequence[Understood], states: Mapping[str, State]) -> None:
    for one in found:
        state = states.get(one.cue.id)
        head = "  ".join(filter(None, (one.cue.id, _moment(one.cue), one.cue.speaker, state)))
        click.echo(head)
        click.echo(textwrap.fill(one.cue.text, 100, initial_indent="    ", subsequent_indent="    "))
        told = [", ".join(one.kinds[:3])]
        told += [f"{spoken.notation}{' (taken back)' if spoken.taken_back else ''}" for spoken in one.quantities
                 if spoken.known]
        told += [f"{spoken.notation}: of what?" for spoken in one.quantities if not spoken.known]
        told += [f"takes back {', '.join(one.takes_back)}"] if one.takes_back else []
        told += [f"names {thing.id}" for thing in one.things]
        click.echo(f"    → {'; '.join(told)}")


def _moment(cue: Cue) -> str:
    return "" if cue.start is None else clock_text(cue.start)
