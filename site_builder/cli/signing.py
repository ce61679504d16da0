"""What every way of signing shares: an entry tried against the law, and written into the book."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import click

from site_builder.analysis.analysis import Analysis, analysis
from site_builder.cli.entering import Draft, Refused, draft, read_draft, whole_book
from site_builder.cli.in_lines import breach_lines, in_one_line
from site_builder.notebook.model.records import SignOff
from site_builder.skills.append import Appended, MovedOn, append
from site_builder.skills.breach import OVERRIDABLE, Breach
from site_builder.skills.entry_text import Value
from site_builder.skills.keys import Signer

KIND = "sign-off"
_LAW_CODES = ("law-", "own-sign-off", "too-young", "date-backward")
_TRIES = 5


def one_of(question: str, given: str | None, known: Sequence[str], yes: bool, option: str) -> str:
    """What was given by an option, or what is answered; only what the notebook knows. Raises Refused."""
    if given is not None:
        if given not in known:
            raise Refused(f"`{given}` is not in the notebook. There are: {', '.join(known)}.")
        return given
    if yes:
        raise click.UsageError(f"{option} is missing.")
    if not known:
        raise Refused("There is nothing to choose from in the notebook yet.")
    return str(click.prompt(question, type=click.Choice(known)))


def asked_evidence(surveyed: Analysis, fields: dict[str, Value]) -> list[str]:
    """Show what the books hold of the learner in the skill, and ask on what of it the entry rests."""
    evidence, skill = surveyed.law.evidence, str(fields["skill"])
    notebook = surveyed.notebook
    found = [one for one in (*notebook.practice, *notebook.trials, *notebook.measurements)
             if one.who == fields["learner"] and skill in evidence.skills_of(one) and not evidence.answered(one)]
    for one in found:
        click.echo(f"  {one.KIND} {one.number}: {in_one_line(one)}")
    words = str(click.prompt("It rests on (as `practice 31, trial 2`)", default="", show_default=False))
    return [" ".join(part.split()) for part in words.split(",") if part.strip()]


def tried_entry(surveyed: Analysis, fields: dict[str, Value], yes: bool) -> SignOff:
    """The entry as it will be written; asks for a reason where only proof is missing. Raises Refused."""
    tried, breaches = judged(surveyed, fields)
    overridable = bool(breaches) and all(breach.article in OVERRIDABLE for breach in breaches)
    if overridable and not tried.errors and not yes and "override" not in fields:
        for line in breach_lines(breaches):
            click.echo(line)
        reason = str(click.prompt("Why do you sign it all the same (nothing: do not)", default="", show_default=False))
        if reason.strip():
            fields["override"] = reason.strip()
            tried, breaches = judged(surveyed, fields)
    refuse_unlawful(tried, breaches)
    record = tried.record
    assert isinstance(record, SignOff)
    return record


def judged(surveyed: Analysis, fields: dict[str, Value]) -> tuple[Draft, list[Breach]]:
    """The entry as the notebook would read it, what else is wrong with it, and what the law says."""
    tried = draft(surveyed, KIND, fields)
    kept = tuple(found for found in tried.findings if not found.code.startswith(_LAW_CODES))
    return Draft(tried.record, kept), surveyed.law.judge_next(sign_off_of(surveyed, fields))


def sign_off_of(surveyed: Analysis, fields: dict[str, Value]) -> SignOff:
    """The entry that these fields make. Raises Refused."""
    record, _ = read_draft(surveyed, KIND, fields)
    assert isinstance(record, SignOff)
    return record


def refuse_unlawful(tried: Draft, breaches: list[Breach]) -> None:
    """Raises Refused where anything is wrong."""
    wrong = [*breach_lines(breaches), *(f"  {found.message} {found.fix}" for found in tried.errors)]
    if wrong:
        raise Refused("\n".join(("This is against the law of the book. Nothing was written.", *wrong)))


def written(root: Path, surveyed: Analysis, fields: dict[str, Value], signer: Signer | None) -> Appended:
    """Write the entry; where somebody else was quicker, look again whether it is still lawful. Raises Refused."""
    for _ in range(_TRIES):
        book = whole_book(surveyed, KIND)
        seen = book.entries[-1].seal if book is not None and book.entries else ""
        try:
            return append(root, KIND, fields, signer=signer, seen=seen)
        except MovedOn:
            surveyed = analysis(root, surveyed.today)
            refuse_unlawful(*judged(surveyed, fields))
    raise Refused("Others write into the book without pause. Nothing was written; try again in a moment.")
