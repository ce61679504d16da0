"""The page of a skill: what it covers and asks for, how it is shown, and who was signed for it by whom."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.hours_of_teaching import hours_told
from site_builder.handbook.pages.lineage import skill_line
from site_builder.handbook.pages.measured_so_far import measured_so_far
from site_builder.handbook.pages.people_index import PeopleIndex, entry_anchor
from site_builder.handbook.pages.proof_so_far import hands_together, kept_fresh, proofs_so_far
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.site import HANDS, Page
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.people import Show, Skill
from site_builder.notebook.model.records import SignOff
from site_builder.skills.holders import LEVELS
from site_builder.views.hazard import gravity, signals
from site_builder.views.picture import shots
from site_builder.views.prose import (
    Prose,
    Ref,
    capital,
    joined,
    linked,
    listed,
    prose,
    say,
    sentence,
)
from site_builder.views.rest import tailed
from site_builder.views.skill import EVIDENCE, proof_words, skill_facts

_ALONE = LEVELS.index("alone") + 1
Item = tuple[Prose, str, Prose | None]


@dataclass(frozen=True, slots=True)
class Shown:
    """A checklist: the one for whoever begins, or that of a ``learner`` with what is signed."""

    id: str
    heading: str
    say: Prose
    items: tuple[Item, ...]
    learner: bool = False
    few: str = ""


@dataclass(frozen=True, slots=True)
class Entered:
    """A row of the ledger of sign-offs."""

    anchor: str
    learner: Prose
    level: str
    signer: Prose
    date: str
    says: Prose


def skill_sheet(people_index: PeopleIndex, id_: str) -> Page:
    """The page of one skill."""
    book, skill = people_index.book, people_index.book.notebook.skills[id_]
    src_uri = book.addresses["skill", id_]
    context = PageContext(book, src_uri)
    title = context.title("skill", id_)
    lede = joined(sentence(context.words(reason)) for reason in skill.because)
    lists = [*_lists(people_index, context, id_, skill)]
    html = pressed(
        "skill.html.j2", context,
        kicker=say("{} · Skills", linked("The hands", Ref("chapter", HANDS))),
        title=title,
        lede=lede,
        note=context.words(skill.note),
        unsound=unsound(book, (skill.at.path,)),
        pictures=shots(context.scope(skill), skill.pictures),
        ways=[*_ways(context, id_)],
        facts=[*_facts(people_index, context, id_, skill)], few=_few(people_index, context, id_),
        signals=signals(context.scope(skill), sorted(skill.hazards, key=gravity)),
        lists=lists,
        asked_checklist="" if lists else _asked(context, skill, "checklist"),
        proof=[*map(capital, proof_words(context.scope(skill), skill.proof))] if skill.proof is not None else [],
        so_far=[*proofs_so_far(people_index, context, id_, skill)],
        together=[*hands_together(people_index, context, id_)],
        fresh=[*kept_fresh(people_index, context, id_)],
        measured=[*measured_so_far(people_index, context, id_)],
        alone=_alone(people_index, context, id_),
        entries=[_entry(people_index, context, entry) for entry in people_index.of_skill.get(id_, ())],
        line=skill_line(people_index, context, id_),
        questions=[context.words(question) for question in skill.questions],
    )
    told = context.plain(skill.because[0]) if skill.because else ""
    parts = (Part("sign-offs", f"{title}: who has been signed for it"), *_to_find(context, skill, lists))
    return Page(src_uri, title, html, told, parts, skill.at.path)


def _to_find(context: PageContext, skill: Skill, lists: list[Shown]) -> Iterator[Part]:
    if lists:
        yield Part(lists[0].id, f"{context.plain(skill.title)}: what is shown for it",
                   " ".join(context.plain(item.show) for item in skill.checklist))


def _ways(context: PageContext, id_: str) -> Iterator[tuple[str, str]]:
    """(address, words): where to study it, and the checklist on paper."""
    for key, words in (("study", "Study it"), ("checklist", "Checklist on paper")):
        href = context.href(key, id_)
        if href is not None:
            yield href, words


def _few(people_index: PeopleIndex, context: PageContext, id_: str) -> str:
    teachers = [context.title("person", one) for one in people_index.teachers[id_]]
    return f"Taught by {listed(teachers, 'or').plain}" if teachers else ""


def _alone(people_index: PeopleIndex, context: PageContext, id_: str) -> str:
    """Who does it alone today; what rests does not count."""
    able = [context.title("person", one) for one in people_index.book.analysis.holders.able(id_)]
    return f"Alone: {listed(able).plain}" if able else "Nobody does it alone"


def _asked(context: PageContext, entry: Entry, key: str) -> str:
    """The address of the question, where a key was left open on purpose."""
    written = next((one for one in entry.asked if one == key), None)
    return context.question_href(written.at) if written is not None else ""


# --- what it asks for -----------------------------------------------------------------------------------


def _facts(people_index: PeopleIndex, context: PageContext, id_: str, skill: Skill) -> Iterator[tuple[str, Prose]]:
    """With what only a page can tell: the hours reckoned."""
    return skill_facts(
        context.scope(skill), skill, people_index.teachers[id_], people_index.signers[id_],
        untaught=id_ in people_index.untaught, hours=capital(hours_told(people_index, context, id_)))


# --- what was shown -------------------------------------------------------------------------------------


def _lists(people_index: PeopleIndex, context: PageContext, id_: str, skill: Skill) -> Iterator[Shown]:
    """The checklist as whoever begins finds it, then that of everybody on the way who has shown something."""
    if not skill.checklist:
        return
    on_the_way = [held for held in people_index.book.analysis.holders.of_skill(id_) if held.rank < _ALONE]
    waiting, begun = [], []
    for held in on_the_way:
        items = tuple(_item(people_index, context, id_, held.person, show) for show in skill.checklist)
        signed = sum(one[2] is not None for one in items)
        if signed:
            begun.append(Shown(
                f"shown-{held.person}", f"{context.title('person', held.person)}: what has been shown",
                say("{}, {} now. Signed so far: {} of {}.",
                    context.link("person", held.person), held.level, signed, len(items)),
                items, learner=True, few=f"{held.level}; {signed} of {len(items)} shown",
            ))
        else:
            waiting.append(say("{} ({})", context.link("person", held.person), held.level))
    so_far = say("Nothing of it is signed yet for {}.", listed(waiting)) if waiting else \
        prose("" if begun else "Nobody is on the way to it just now. The list is for whoever begins.")
    yield Shown("checklist", "What is shown for it", so_far,
                tuple(_item(people_index, context, id_, "", show) for show in skill.checklist))
    yield from begun


def _item(people_index: PeopleIndex, context: PageContext, skill: str, learner: str, show: Show) -> Item:
    entry = people_index.shown.get((learner, skill, str(show.id))) if show.id is not None else None
    scope = context.scope(people_index.book.notebook.skills[skill])
    item = tailed(scope, show, context.words(show.show), ("show", "id", "evidence"))
    return item, EVIDENCE[str(show.evidence or "seen")], _signed(context, entry) if entry else None


def _signed(context: PageContext, entry: SignOff) -> Prose:
    who = context.person(str(entry.who)) if entry.who is not None else prose("nobody named")
    on = f", {context.date(entry.date)}" if entry.date is not None else ""
    return say("Signed by {}{}. {}", who, on, _to_entry(entry, f"Entry {entry.number}"))


def _to_entry(entry: SignOff, words: str) -> Prose:
    return linked(words, Ref("here", "", entry_anchor(entry)))


def _entry(people_index: PeopleIndex, context: PageContext, entry: SignOff) -> Entered:
    """A row of the ledger; an entry that was taken back stays, and says so."""
    return Entered(
        entry_anchor(entry), context.person(people_index.meant(entry)[0] or "nobody named"), str(entry.level or ""),
        context.person(str(entry.who or "nobody named")), context.date(entry.date),
        joined(_said(people_index, context, entry)),
    )


def _said(people_index: PeopleIndex, context: PageContext, entry: SignOff) -> Iterator[Prose]:
    yield say("**{}**.", entry.number)
    later = people_index.taken_back.get(entry.number)
    if later is not None:
        what = "corrected" if later.corrects is not None else "taken back"
        yield say("**{} by entry {}.**", what.capitalize(), _to_entry(later, str(later.number)))
    if entry.withdraws is not None:
        number = str(entry.withdraws)
        yield say("Takes back entry {}.", linked(number, Ref("here", "", f"sign-off-{number}")))
    if entry.evidence:
        yield say("On {}.", listed(people_index.evidence(context, str(one)) for one in entry.evidence))
    if entry.override is not None:
        yield say("**Without the proof asked for:** {}", sentence(context.words(entry.override)))
    for because in entry.because:
        yield sentence(context.words(because))
    if entry.note is not None:
        yield sentence(context.words(entry.note))
