"""What an entry of the book of sign-offs is against, and what can be seen of that by the entry alone."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from site_builder.notebook.finding import At
from site_builder.notebook.model.parsed_values import Dated
from site_builder.notebook.model.people import Skill
from site_builder.notebook.model.records import SignOff
from site_builder.notebook.tree import Text
from site_builder.skills.entry_dates import BEFORE, NOT_YET
from site_builder.skills.ledger import LEVELS, Ledger


class Article(StrEnum):
    """What of the law an entry is against."""

    SIGNER = "signer"
    SELF = "self"
    SAYS = "says"
    NEEDS = "needs"
    AGE = "age"
    LEVEL = "level"
    PROOF = "proof"
    EVIDENCE = "evidence"
    TAKES_BACK = "takes back"
    DATE = "date"


OVERRIDABLE = (Article.LEVEL, Article.PROOF)
"""What a written reason of the signer excuses."""


@dataclass(frozen=True, slots=True)
class Breach:
    """An entry against the law, at the place of what is wrong with it."""

    article: Article
    number: int
    at: At
    message: str
    fix: str


def says(entry: SignOff) -> Iterator[Breach]:
    for key, value in (("learner", entry.learner), ("skill", entry.skill), ("date", entry.date)):
        if value is None:
            yield breach(Article.SAYS, entry, entry.number_text.at, f"This sign-off names no {key}.",
                          f"A sign-off says who has learned what, and when: `{key}` is missing.")
    if entry.level is None and not entry.items:
        yield breach(Article.SAYS, entry, entry.number_text.at, "This sign-off names no level and no item.",
                      "Write how far somebody has come under `level`, or what was shown under `items`.")


def works(entry: SignOff, skill: Skill) -> bool:
    """Whether the hands of the learner did something for this entry: more than watching, and saying what was seen."""
    if entry.level != LEVELS[0]:
        return True
    return any(show.id in entry.items and (show.evidence or "seen") != "seen" for show in skill.checklist)


def items_known(entry: SignOff, skill: Skill) -> Iterator[Breach]:
    known = {show.id for show in skill.checklist if show.id is not None}
    for item in entry.items:
        if item not in known:
            listed = ", ".join(f"`{one}`" for one in known) or "none with an id"
            yield breach(Article.SAYS, entry, item.at, f"`{item}` is no item of the checklist of `{skill.skill}`.",
                          f"The checklist has: {listed}.")


def earlier_holds(entry: SignOff, number: Text, ledger: Ledger) -> Iterator[Breach]:
    if int(number) >= entry.number or ledger.entry(int(number)) is None:
        yield breach(Article.TAKES_BACK, entry, number.at, f"There is no entry {number} before this one that holds.",
                      "Name the number of the entry that is meant.")
    elif int(number) in ledger.gone:
        yield breach(Article.TAKES_BACK, entry, number.at,
                      f"Entry {number} was taken back or corrected by entry {ledger.gone[int(number)].number} already.",
                      "Name the entry that holds now.")


def breach(article: Article, entry: SignOff, at: At, message: str, fix: str) -> Breach:
    return Breach(article, entry.number, at, message, fix)


def ahead(entry: SignOff) -> Breach:
    at = entry.date.at if entry.date is not None else entry.number_text.at
    return breach(Article.DATE, entry, at, NOT_YET.format(entry.date),
                   "It gives nothing until it is taken back and entered with its own day. Look at the clock first.")


def before_another(entry: SignOff, latest: Dated) -> Breach:
    at = entry.date.at if entry.date is not None else entry.number_text.at
    return breach(Article.DATE, entry, at, BEFORE.format(entry.date, latest),
                   "An entry is dated with the day on which it is written. If the earlier one has the wrong day, take "
                   "that one back.")


def at_text(text: Text | None, entry: SignOff) -> At:
    return text.at if text is not None else entry.number_text.at


def day_of(entry: SignOff) -> date | None:
    return entry.date.value.last if entry.date is not None else None
