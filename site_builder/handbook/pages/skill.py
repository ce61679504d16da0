"""The page of a skill: what it covers and asks for, how it is shown, and who was signed for it by whom."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.hours_of_teaching import hours_told
from site_builder.handbook.pages.in_words import capital, listed, lowered, sentence
from site_builder.handbook.pages.lineage import skill_line
from site_builder.handbook.pages.measured_so_far import measured_so_far
from site_builder.handbook.pages.paths import named_value
from site_builder.handbook.pages.people_index import PeopleIndex, entry_anchor
from site_builder.handbook.pages.proof_so_far import hands_together, kept_fresh, proofs_so_far
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.site import HANDS, Page
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.people import Proof, Show, Skill
from site_builder.notebook.model.records import SignOff
from site_builder.skills.holders import LEVELS
from site_builder.views.age import age_words
from site_builder.views.counts import spelt
from site_builder.views.hazard import gravity, signals
from site_builder.views.picture import shots
from site_builder.views.value import limit_value

_ALONE = LEVELS.index("alone") + 1
EVIDENCE = {
    "practice": "pieces in the book of practice", "trial": "a feel trial", "measurement": "the gauge",
    "seen": "doing it under the teacher’s eyes",
}
Item = tuple[Markup, str, Markup | None]


@dataclass(frozen=True, slots=True)
class Entered:
    """A row of the ledger of sign-offs."""

    anchor: str
    learner: Markup
    level: str
    signer: Markup
    date: str
    says: Markup


def skill_sheet(people_index: PeopleIndex, id_: str) -> Page:
    """The page of one skill."""
    book, skill = people_index.book, people_index.book.notebook.skills[id_]
    src_uri = book.addresses["skill", id_]
    context = PageContext(book, src_uri)
    title = context.title("skill", id_)
    lede = Markup(" ").join(sentence(context.words(reason)) for reason in skill.because)
    lists = [*_lists(people_index, context, id_, skill)]
    html = pressed(
        "skill.html.j2", context,
        kicker=Markup('<a href="{}">The hands</a> · Skills').format(context.to(HANDS)),
        title=title,
        lede=lede,
        note=context.words(skill.note),
        unsound=unsound(book, (skill.at.path,)),
        pictures=shots(context.scope(skill), skill.pictures),
        facts=[*_facts(people_index, context, id_, skill)],
        signals=signals(context.scope(skill), sorted(skill.hazards, key=gravity)),
        lists=lists,
        asked_checklist="" if lists else _asked(context, skill, "checklist"),
        proof=[*map(capital, _proof(context, skill, skill.proof))] if skill.proof is not None else [],
        so_far=[*proofs_so_far(people_index, context, id_, skill)],
        together=[*hands_together(people_index, context, id_)],
        fresh=[*kept_fresh(people_index, context, id_)],
        measured=[*measured_so_far(people_index, context, id_)],
        entries=[_entry(people_index, context, entry) for entry in people_index.of_skill.get(id_, ())],
        line=skill_line(people_index, context, id_),
        questions=[context.words(question) for question in skill.questions],
    )
    told = context.plain(skill.because[0]) if skill.because else ""
    parts = (Part("sign-offs", f"{title}: who has been signed for it"), *_to_find(context, skill, lists))
    return Page(src_uri, title, html, told, parts, skill.at.path)


def _to_find(context: PageContext, skill: Skill, lists: list[tuple[str, str, Markup, list[Item]]]) -> Iterator[Part]:
    if lists:
        yield Part(lists[0][0], f"{context.plain(skill.title)}: what is shown for it",
                   " ".join(context.plain(item.show) for item in skill.checklist))


def _asked(context: PageContext, entry: Entry, key: str) -> str:
    """The address of the question, where a key was left open on purpose."""
    written = next((one for one in entry.asked if one == key), None)
    return context.question_href(written.at) if written is not None else ""


# --- what it asks for -----------------------------------------------------------------------------------


def _facts(people_index: PeopleIndex, context: PageContext, id_: str, skill: Skill) -> Iterator[tuple[str, Markup]]:
    if skill.covers:
        yield "Covers", capital(listed(context.any_link(str(one), ("procedure",)) for one in skill.covers))
    ways = [Markup('<a href="{}">{}</a>').format(href, words) for key, words in (
        ("study", "Study it: what to know, and questions to ask yourself"), ("checklist", "The checklist on paper"),
    ) if (href := context.href(key, id_)) is not None]
    if ways:
        yield "To learn it", capital(Markup("<br>").join(ways))
    if skill.needs:
        yield "Needs first", capital(Markup("; ").join(
            _need(context, need.skill, need.level, need.because) for need in skill.needs))
    if skill.age:
        yield "Age", capital(Markup(" ").join(_age(context, limit) for limit in skill.age))
    if skill.papers:
        yield "Papers", capital(listed(
            _paper(context, str(one.paper), context.value(one.valid)[0]) for one in skill.papers))
    teachers = people_index.teachers[id_]
    if teachers:
        yield "May teach it", capital(listed(context.link("person", one) for one in teachers))
    elif id_ in people_index.untaught:
        yield "May teach it", capital(Markup("nobody who is here now"))
    founders = [one for one in people_index.signers[id_] if one not in teachers]
    if founders:
        named = listed(context.link("person", one) for one in founders)
        also = "who may teach it, and " if teachers else ""
        yield "May sign for it", capital(Markup("{}{} as a founder").format(also, named))
    yield "Lessons", capital(hours_told(people_index, context, id_))
    if skill.refresh:
        yield "Goes stale", capital(Markup("; ").join(
            Markup("after {} without practice").format(spelt(context.value(limit.written)[0]))
            for limit in skill.refresh if limit.written is not None
        ))
    for key, name in (("covers", "Covers"), ("age", "Age"), ("refresh", "Goes stale"), ("proof", "Proof")):
        if href := _asked(context, skill, key):
            yield name, capital(Markup('<a class="bl-untold" href="{}">not yet told</a>').format(href))


def _age(context: PageContext, limit: Limit) -> Markup:
    """A least age on a line of its own, and why."""
    reasons = Markup(" ").join(sentence(context.words(why)) for why in limit.because)
    also = Markup(' <span class="bl-also-why">{}</span>').format(reasons) if reasons else Markup("")
    age = capital(context.said(age_words(context.scope(limit), [limit])))
    return Markup('<span class="bl-line">{}</span>').format(age) + also


def _need(context: PageContext, skill: str, level: str | None, because: tuple[str, ...]) -> Markup:
    told = Markup("{}, at least {}").format(context.link("skill", str(skill)), level or "alone")
    reasons = Markup(" ").join(sentence(context.words(why)) for why in because)
    return Markup('{} <span class="bl-also-why">{}</span>').format(told, reasons) if reasons else told


def _paper(context: PageContext, paper: str, valid: str) -> Markup:
    named = context.words(paper)
    return Markup("{}, not older than {}").format(named, valid) if valid else named


def _proof(context: PageContext, skill: Skill, proof: Proof) -> Iterator[Markup]:
    if proof.pieces is not None:
        yield Markup("<b>{}</b> pieces made").format(spelt(context.value(proof.pieces)[0]))
    if proof.share is not None:
        sure = context.value(proof.confidence)[0]
        also = f", and {spelt(sure)} certainty that it was not luck" if sure else ""
        yield Markup("<b>{}</b> of them good{}").format(spelt(context.value(proof.share)[0]), also)
    for limit in proof.agreement:
        yield Markup("<b>{}</b> of the verdicts by feel the same as the teacher’s").format(
            context.said(limit_value(context.scope(skill), limit).main))
    if proof.limits:
        yield Markup("measured by {}").format(listed(named_value(context, str(one)) for one in proof.limits))
    for check in proof.checks:
        told = [context.words(check.do), context.words(check.good)]
        bad = Markup("Not if: {}").format(listed((context.words(one) for one in check.bad), "or")) if check.bad else ""
        words = Markup(" ").join(sentence(part) for part in (*told, bad) if part)
        yield Markup("a test piece: {}").format(lowered(words))


# --- what was shown -------------------------------------------------------------------------------------


def _lists(
    people_index: PeopleIndex, context: PageContext, id_: str, skill: Skill
) -> Iterator[tuple[str, str, Markup, list[Item]]]:
    """The checklist for everybody who is on the way, or an empty one for whoever begins."""
    if not skill.checklist:
        return
    on_the_way = [held for held in people_index.book.analysis.holders.of_skill(id_) if held.rank < _ALONE]
    waiting = []
    for held in on_the_way:
        items = [_item(people_index, context, id_, held.person, show) for show in skill.checklist]
        signed = sum(one[2] is not None for one in items)
        if signed:
            say = Markup("{}, {} now. Signed so far: {} of {}.").format(
                context.link("person", held.person), held.level, signed, len(items))
            yield f"shown-{held.person}", f"{context.title('person', held.person)}: what has been shown", say, items
        else:
            waiting.append(Markup("{} ({})").format(context.link("person", held.person), held.level))
    if waiting or not on_the_way:
        say = Markup("Nothing of it is signed yet for {}.").format(listed(waiting)) if waiting else Markup(
            "Nobody is on the way to it just now. The list is for whoever begins.")
        yield (
            "checklist",
            "What is shown for it",
            say,
            [_item(people_index, context, id_, "", show) for show in skill.checklist],
        )


def _item(people_index: PeopleIndex, context: PageContext, skill: str, learner: str, show: Show) -> Item:
    entry = people_index.shown.get((learner, skill, str(show.id))) if show.id is not None else None
    return context.words(show.show), EVIDENCE[str(show.evidence or "seen")], _signed(context, entry) if entry else None


def _signed(context: PageContext, entry: SignOff) -> Markup:
    who = context.person(str(entry.who)) if entry.who is not None else Markup("nobody named")
    on = f", {context.date(entry.date)}" if entry.date is not None else ""
    return Markup('Signed by {}{}. <a href="#{}">Entry {}</a>').format(who, on, entry_anchor(entry), entry.number)


def _entry(people_index: PeopleIndex, context: PageContext, entry: SignOff) -> Entered:
    """A row of the ledger; an entry that was taken back stays, and says so."""
    return Entered(
        entry_anchor(entry), context.person(people_index.meant(entry)[0] or "nobody named"), str(entry.level or ""),
        context.person(str(entry.who or "nobody named")), context.date(entry.date),
        Markup(" ").join(_said(people_index, context, entry)),
    )


def _said(people_index: PeopleIndex, context: PageContext, entry: SignOff) -> Iterator[Markup]:
    yield Markup("<b>{}</b>.").format(entry.number)
    later = people_index.taken_back.get(entry.number)
    if later is not None:
        what = "corrected" if later.corrects is not None else "taken back"
        yield Markup('<b>{} by entry <a href="#{}">{}</a>.</b>').format(
            what.capitalize(), entry_anchor(later), later.number)
    if entry.withdraws is not None:
        yield Markup('Takes back entry <a href="#sign-off-{}">{}</a>.').format(entry.withdraws, entry.withdraws)
    if entry.evidence:
        yield Markup("On {}.").format(listed(people_index.evidence(context, str(one)) for one in entry.evidence))
    if entry.override is not None:
        yield Markup("<b>Without the proof asked for:</b> {}").format(sentence(context.words(entry.override)))
    for because in entry.because:
        yield sentence(context.words(because))
    if entry.note is not None:
        yield sentence(context.words(entry.note))
