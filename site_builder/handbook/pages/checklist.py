"""The checklist of a skill on paper: one a sheet, with boxes, and lines for initials and dates."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.site import HANDS, Page
from site_builder.notebook.model.people import Skill
from site_builder.notebook.model.records import SignOff
from site_builder.skills.initials import initials
from site_builder.skills.ledger import LEVELS
from site_builder.skills.sheet_code import sheet_code
from site_builder.views.age import age_words
from site_builder.views.prose import NO_WORDS, Prose, Ref, linked, listed, prose, say, sentence
from site_builder.views.skill import EVIDENCE

_ALONE = LEVELS.index("alone") + 1


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


def checklist_sheet(people_index: PeopleIndex, id_: str) -> Page | None:
    """The page of one skill's checklist; None where there is no checklist."""
    book, skill = people_index.book, people_index.book.notebook.skills[id_]
    src_uri = book.addresses.get(("checklist", id_))
    if src_uri is None:
        return None
    context = PageContext(book, src_uri)
    title = context.title("skill", id_)
    papers = [*_papers(people_index, context, id_, skill)]
    html = pressed(
        "checklist.html.j2", context,
        kicker=say("{} · {}", linked("The hands", Ref("chapter", HANDS)), context.link("skill", id_)),
        title=f"Checklist: {title}", name=title, unsound=unsound(book, (skill.at.path,)), papers=papers,
        code=sheet_code(skill),
        age=age_words(context.scope(skill), skill.age) if skill.age else "",
        teachers=listed(_signer(context, who) for who in people_index.signers[id_]),
    )
    told = f"To be printed, signed on paper and brought into the book with the code {sheet_code(skill)}."
    return Page(src_uri, f"Checklist: {title}", html, told, written_in=skill.at.path)


def _signer(context: PageContext, who: str) -> Prose:
    name = context.title("person", who)
    return say("{} **{}**", name, initials(name))


def _papers(people_index: PeopleIndex, context: PageContext, id_: str, skill: Skill) -> Iterator[Paper]:
    for held in people_index.book.analysis.holders.of_skill(id_):
        if held.rank < _ALONE:
            rows = _rows(people_index, context, id_, skill, held.person)
            yield Paper(f"for-{held.person}", context.title("person", held.person), held.level, rows)
    yield Paper("for-whoever-begins", "", "", _rows(people_index, context, id_, skill, ""))


def _rows(people_index: PeopleIndex, context: PageContext, id_: str, skill: Skill, learner: str) -> tuple[Row, ...]:
    return tuple(
        Row(context.words(show.show, glossary=False), EVIDENCE[str(show.evidence or "seen")],
            _signed(context, people_index.shown.get((learner, id_, str(show.id))) if show.id is not None else None),
            show.id is None)
        for show in skill.checklist
    )


def _signed(context: PageContext, entry: SignOff | None) -> Prose:
    """``EC, 3 March 2026, entry 12``, and why, where it was signed without the proof asked for."""
    if entry is None:
        return NO_WORDS
    who = initials(context.title("person", str(entry.who))) if entry.who is not None else "?"
    signed = prose(", ".join(filter(None, (who, context.date(entry.date), f"entry {entry.number}"))))
    if entry.override is None:
        return signed
    return say("{}. Without the proof asked for: {}",
        signed, sentence(context.words(entry.override, glossary=False)))


__all__ = ["checklist_sheet"]
