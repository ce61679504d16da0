"""The checklist of a skill on paper: a sheet for each learner on the way, and one for whoever begins."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from site_builder.notebook.model.people import Skill
from site_builder.notebook.model.records import SignOff
from site_builder.skills.initials import initials
from site_builder.skills.ledger import LEVELS
from site_builder.skills.sheet_code import sheet_code
from site_builder.views.age import age_words
from site_builder.views.dates import date_words
from site_builder.views.notebook_view import NotebookView
from site_builder.views.prose import NO_WORDS, Prose, listed, prose, say, sentence
from site_builder.views.scope import scope_of
from site_builder.views.skill import EVIDENCE

_ALONE = LEVELS.index("alone") + 1
ShownItems = Mapping[tuple[str, str, str], SignOff]
"""(learner, skill, checklist item) to the first standing entry that says it was shown."""


@dataclass(frozen=True, slots=True)
class Row:
    """One item: what is shown, how, and by whom it was signed already."""

    what: Prose
    by: str
    signed: Prose
    lost: bool
    """It has no id, so no entry of the book can name it."""


@dataclass(frozen=True, slots=True)
class Paper:
    """One sheet of paper: for a learner on the way, or for whoever begins."""

    anchor: str
    learner: str
    now: str
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class Checklist:
    """All sheets of a skill, and what stands on each of them."""

    name: str
    papers: tuple[Paper, ...]
    code: str
    age: Prose
    teachers: Prose
    """Who may sign, with initials."""


def checklist(view: NotebookView, id_: str, shown: ShownItems, signers: Iterable[str]) -> Checklist:
    """``signers`` may sign for the skill today."""
    skill = view.notebook.skills[id_]
    return Checklist(
        view.title("skill", id_), tuple(_papers(view, id_, skill, shown)), sheet_code(skill),
        age_words(scope_of(view, skill), skill.age) if skill.age else NO_WORDS,
        listed(_signer(view, who) for who in signers))


def shown_items(standing: Iterable[SignOff]) -> ShownItems:
    """What was shown, by the entries that stand."""
    found: dict[tuple[str, str, str], SignOff] = {}
    for entry in standing:
        for item in entry.items:
            found.setdefault((str(entry.learner), str(entry.skill), str(item)), entry)
    return found


def _signer(view: NotebookView, who: str) -> Prose:
    name = view.title("person", who)
    return say("{} **{}**", name, initials(name))


def _papers(view: NotebookView, id_: str, skill: Skill, shown: ShownItems) -> Iterator[Paper]:
    for held in view.analysis.holders.of_skill(id_):
        if held.rank < _ALONE:
            rows = _rows(view, id_, skill, shown, held.person)
            yield Paper(f"for-{held.person}", view.title("person", held.person), held.level, rows)
    yield Paper("for-whoever-begins", "", "", _rows(view, id_, skill, shown, ""))


def _rows(view: NotebookView, id_: str, skill: Skill, shown: ShownItems, learner: str) -> tuple[Row, ...]:
    return tuple(
        Row(view.words(show.show, glossary=False), EVIDENCE[str(show.evidence or "seen")],
            _signed(view, shown.get((learner, id_, str(show.id))) if show.id is not None else None),
            show.id is None)
        for show in skill.checklist
    )


def _signed(view: NotebookView, entry: SignOff | None) -> Prose:
    """``EC, 3 March 2026, entry 12``, and why, where it was signed without the proof asked for."""
    if entry is None:
        return NO_WORDS
    who = initials(view.title("person", str(entry.who))) if entry.who is not None else "?"
    signed = prose(", ".join(filter(None, (who, date_words(entry.date), f"entry {entry.number}"))))
    if entry.override is None:
        return signed
    return say("{}. Without the proof asked for: {}",
        signed, sentence(view.words(entry.override, glossary=False)))
