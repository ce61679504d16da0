"""The page of a skill: what it covers and asks for, how it is shown, and who was signed for it by whom."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from site_builder.handbook.book import HANDS, Sheet
from site_builder.handbook.finder import Part
from site_builder.handbook.pages.ages_told import age_words
from site_builder.handbook.pages.harms import signals
from site_builder.handbook.pages.hours_of_teaching import hours_told
from site_builder.handbook.pages.in_words import capital, listed, lowered, sentence, spelt
from site_builder.handbook.pages.lineage import skill_line
from site_builder.handbook.pages.measured_so_far import measured_so_far
from site_builder.handbook.pages.paths import named_value
from site_builder.handbook.pages.press import pressed
from site_builder.handbook.pages.proof_so_far import hands_together, kept_fresh, proofs_so_far
from site_builder.handbook.pages.readings import Fact, reading
from site_builder.handbook.pages.roll import Roll, entry_anchor
from site_builder.handbook.pages.shown import shown
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pen import Pen
from site_builder.mastery.holders import LEVELS
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.people import Proof, Show, Skill
from site_builder.notebook.model.records import SignOff

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


def skill_sheet(roll: Roll, id_: str) -> Sheet:
    """The page of one skill."""
    book, skill = roll.book, roll.book.notebook.skills[id_]
    src_uri = book.addresses["skill", id_]
    pen = Pen(book, src_uri)
    title = pen.title("skill", id_)
    lede = Markup(" ").join(sentence(pen.words(reason)) for reason in skill.because)
    lists = [*_lists(roll, pen, id_, skill)]
    html = pressed(
        "skill.html.j2",
        kicker=Markup('<a href="{}">The hands</a> · Skills').format(pen.to(HANDS)), title=title, lede=lede,
        note=pen.words(skill.note), unsound=unsound(book, (skill.at.path,)), pictures=shown(pen, skill.pictures),
        facts=[*_facts(roll, pen, id_, skill)], signals=signals(pen, skill.hazards), lists=lists,
        asked_checklist="" if lists else _asked(pen, skill, "checklist"),
        proof=[*map(capital, _proof(pen, skill.proof))] if skill.proof is not None else [],
        so_far=[*proofs_so_far(roll, pen, id_, skill)], together=[*hands_together(roll, pen, id_)],
        fresh=[*kept_fresh(roll, pen, id_)], measured=[*measured_so_far(roll, pen, id_)],
        entries=[_entry(roll, pen, entry) for entry in roll.of_skill.get(id_, ())],
        line=skill_line(roll, pen, id_),
        questions=[pen.words(question) for question in skill.questions],
    )
    told = pen.plain(skill.because[0]) if skill.because else ""
    parts = (Part("sign-offs", f"{title}: who has been signed for it"), *_to_find(pen, skill, lists))
    return Sheet(src_uri, title, html, told, parts, skill.at.path)


def _to_find(pen: Pen, skill: Skill, lists: list[tuple[str, str, Markup, list[Item]]]) -> Iterator[Part]:
    if lists:
        yield Part(lists[0][0], f"{pen.plain(skill.title)}: what is shown for it",
                   " ".join(pen.plain(item.show) for item in skill.checklist))


def _asked(pen: Pen, entry: Entry, key: str) -> str:
    """The address of the question, where a key was left open on purpose."""
    written = next((one for one in entry.asked if one == key), None)
    return pen.question_href(written.at) if written is not None else ""


# --- what it asks for -----------------------------------------------------------------------------------


def _facts(roll: Roll, pen: Pen, id_: str, skill: Skill) -> Iterator[Fact]:
    if skill.covers:
        yield Fact("Covers", words=listed(pen.any_link(str(one), ("procedure",)) for one in skill.covers))
    ways = [Markup('<a href="{}">{}</a>').format(href, words) for key, words in (
        ("study", "Study it: what to know, and questions to ask yourself"), ("checklist", "The checklist on paper"),
    ) if (href := pen.href(key, id_)) is not None]
    if ways:
        yield Fact("To learn it", words=Markup("<br>").join(ways))
    if skill.needs:
        yield Fact("Needs first", words=Markup("; ").join(_need(pen, need.skill, need.level, need.because)
                                                          for need in skill.needs))
    if skill.age:
        yield Fact("Age", words=Markup(" ").join(_age(pen, limit) for limit in skill.age))
    if skill.papers:
        yield Fact("Papers", words=listed(_paper(pen, str(one.paper), pen.value(one.valid)[0]) for one in skill.papers))
    teachers = roll.teachers[id_]
    if teachers:
        yield Fact("May teach it", words=listed(pen.link("person", one) for one in teachers))
    elif id_ in roll.untaught:
        yield Fact("May teach it", words=Markup("nobody who is here now"))
    yield Fact("Lessons", words=hours_told(roll, pen, id_))
    if skill.refresh:
        yield Fact("Goes stale", words=Markup("; ").join(
            Markup("after {} without practice").format(spelt(pen.value(limit.written)[0]))
            for limit in skill.refresh if limit.written is not None
        ))
    for key, name in (("covers", "Covers"), ("age", "Age"), ("refresh", "Goes stale"), ("proof", "Proof")):
        if href := _asked(pen, skill, key):
            yield Fact(name, words=Markup('<a class="bl-untold" href="{}">not yet told</a>').format(href))


def _age(pen: Pen, limit: Limit) -> Markup:
    """A least age on a line of its own, and why."""
    reasons = Markup(" ").join(sentence(pen.words(why)) for why in limit.because)
    also = Markup(' <span class="bl-also-why">{}</span>').format(reasons) if reasons else Markup("")
    return Markup('<span class="bl-line">{}</span>').format(capital(age_words(pen, [limit]))) + also


def _need(pen: Pen, skill: str, level: str | None, because: tuple[str, ...]) -> Markup:
    told = Markup("{}, at least {}").format(pen.link("skill", str(skill)), level or "alone")
    reasons = Markup(" ").join(sentence(pen.words(why)) for why in because)
    return Markup('{} <span class="bl-also-why">{}</span>').format(told, reasons) if reasons else told


def _paper(pen: Pen, paper: str, valid: str) -> Markup:
    named = pen.words(paper)
    return Markup("{}, not older than {}").format(named, valid) if valid else named


def _proof(pen: Pen, proof: Proof) -> Iterator[Markup]:
    if proof.pieces is not None:
        yield Markup("<b>{}</b> pieces made").format(spelt(pen.value(proof.pieces)[0]))
    if proof.share is not None:
        sure = pen.value(proof.confidence)[0]
        also = f", and {spelt(sure)} certainty that it was not luck" if sure else ""
        yield Markup("<b>{}</b> of them good{}").format(spelt(pen.value(proof.share)[0]), also)
    for limit in proof.agreement:
        yield Markup("<b>{}</b> of the verdicts by feel the same as the teacher’s").format(
            spelt(str(reading(pen, limit).main) or "not yet told"))
    if proof.limits:
        yield Markup("measured by {}").format(listed(named_value(pen, str(one)) for one in proof.limits))
    for check in proof.checks:
        told = [pen.words(check.do), pen.words(check.good)]
        bad = Markup("Not if: {}").format(listed((pen.words(one) for one in check.bad), "or")) if check.bad else ""
        words = Markup(" ").join(sentence(part) for part in (*told, bad) if part)
        yield Markup("a test piece: {}").format(lowered(words))


# --- what was shown -------------------------------------------------------------------------------------


def _lists(roll: Roll, pen: Pen, id_: str, skill: Skill) -> Iterator[tuple[str, str, Markup, list[Item]]]:
    """The checklist for everybody who is on the way, or an empty one for whoever begins."""
    if not skill.checklist:
        return
    on_the_way = [held for held in roll.book.survey.holders.of_skill(id_) if held.rank < _ALONE]
    waiting = []
    for held in on_the_way:
        items = [_item(roll, pen, id_, held.person, show) for show in skill.checklist]
        signed = sum(one[2] is not None for one in items)
        if signed:
            say = Markup("{}, {} now. Signed so far: {} of {}.").format(
                pen.link("person", held.person), held.level, signed, len(items))
            yield f"shown-{held.person}", f"{pen.title('person', held.person)}: what has been shown", say, items
        else:
            waiting.append(Markup("{} ({})").format(pen.link("person", held.person), held.level))
    if waiting or not on_the_way:
        say = Markup("Nothing of it is signed yet for {}.").format(listed(waiting)) if waiting else Markup(
            "Nobody is on the way to it just now. The list is for whoever begins.")
        yield "checklist", "What is shown for it", say, [_item(roll, pen, id_, "", show) for show in skill.checklist]


def _item(roll: Roll, pen: Pen, skill: str, learner: str, show: Show) -> Item:
    entry = roll.shown.get((learner, skill, str(show.id))) if show.id is not None else None
    return pen.words(show.show), EVIDENCE[str(show.evidence or "seen")], _signed(pen, entry) if entry else None


def _signed(pen: Pen, entry: SignOff) -> Markup:
    who = pen.person(str(entry.who)) if entry.who is not None else Markup("nobody named")
    on = f", {pen.date(entry.date)}" if entry.date is not None else ""
    return Markup('Signed by {}{}. <a href="#{}">Entry {}</a>').format(who, on, entry_anchor(entry), entry.number)


def _entry(roll: Roll, pen: Pen, entry: SignOff) -> Entered:
    """A row of the ledger; an entry that was taken back stays, and says so."""
    return Entered(
        entry_anchor(entry), pen.person(roll.meant(entry)[0] or "nobody named"), str(entry.level or ""),
        pen.person(str(entry.who or "nobody named")), pen.date(entry.date),
        Markup(" ").join(_said(roll, pen, entry)),
    )


def _said(roll: Roll, pen: Pen, entry: SignOff) -> Iterator[Markup]:
    yield Markup("<b>{}</b>.").format(entry.number)
    later = roll.taken_back.get(entry.number)
    if later is not None:
        what = "corrected" if later.corrects is not None else "taken back"
        yield Markup('<b>{} by entry <a href="#{}">{}</a>.</b>').format(
            what.capitalize(), entry_anchor(later), later.number)
    if entry.withdraws is not None:
        yield Markup('Takes back entry <a href="#sign-off-{}">{}</a>.').format(entry.withdraws, entry.withdraws)
    if entry.evidence:
        yield Markup("On {}.").format(listed(roll.evidence(pen, str(one)) for one in entry.evidence))
    if entry.override is not None:
        yield Markup("<b>Without the proof asked for:</b> {}").format(sentence(pen.words(entry.override)))
    for because in entry.because:
        yield sentence(pen.words(because))
    if entry.note is not None:
        yield sentence(pen.words(entry.note))
