"""The law of sign-offs.

1. Who signs is in the shop, and teaches that skill on that day or is a founder of the shop (``may_sign``).
2. Nobody signs for himself.
3. An entry says who has learned which skill how far, or which items of its checklist were shown, and when; whom and
   what the notebook does not know, letter by letter, is nobody and nothing.
4. What the skill needs first is held; of a founder, whose mastery is taken as given, it is not asked.
5. The learner is old enough, and so born on a day that is written down; of a bare year the last day counts.
6. A level follows from what was shown. Within call: something of the checklist, where there is one, and practice
   in the books, where the skill asks for proof. Alone, and to teach: every item of the checklist.
7. The proof that the skill asks for stands in the books. Of who works alone already, neither 6 nor 7 is asked a
   second time.
8. What an entry names as its evidence stands in the books, and is of this learner and this skill.
9. An entry is taken back by who signed it, by who teaches that skill, or by a founder, and with a reason.
10. Dates do not run backward, and none lies ahead (``entry_dates``).

Watching and study ask for no age and nothing before them: neither `watches`, nor with it an item that is only seen
or said. Where 6 or 7 is not met, the signer may write down why he signs all the same (``override``); nothing else is
overridden. A sign-off rests, and so does the right to teach, when the time of ``refresh`` has passed without practice,
or a paper that the skill asks for has run out. An entry that nobody entitled has signed gives nothing to whom it names,
here or on any page; other faults are its signer's to put right, and it holds meanwhile. An entry that a later one
withdraws or corrects is answered, and no fault any more.

The law where the shop stands comes first, above all that on the work of children and young people.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from functools import cached_property

from site_builder.notebook.model.parsed_values import Dated
from site_builder.notebook.model.people import Skill
from site_builder.notebook.model.records import Record, SignOff
from site_builder.notebook.tree import Text
from site_builder.skills.ages import Ages
from site_builder.skills.book import BOOK_FILES
from site_builder.skills.breach import (
    Article,
    Breach,
    ahead,
    at_text,
    before_another,
    breach,
    day_of,
    earlier_holds,
    items_known,
    says,
    works,
)
from site_builder.skills.entry_dates import backward, lies_ahead
from site_builder.skills.evidence import CITED, Evidence
from site_builder.skills.fresh import Freshness
from site_builder.skills.ledger import LEVELS, Ledger, rank
from site_builder.skills.look_alike import look_alike
from site_builder.skills.papers import run_out
from site_builder.skills.proof_due import item_lines, proof_lines
from site_builder.skills.readings import ReadingJudge

_YES = ("yes", "true")
_FILES = frozenset(file.removesuffix(".yml") for file in BOOK_FILES.values())


class Law:
    """The law, held against the book of sign-offs of a notebook."""

    def __init__(self, judge: ReadingJudge, today: date) -> None:
        self.notebook = judge.notebook
        self.today = today
        self.evidence = Evidence(judge)
        self.fresh = Freshness(self.notebook)
        self.ages = Ages(judge.references)

    @cached_property
    def breaches(self) -> tuple[Breach, ...]:
        """Everything in the book that is against the law and was not answered by a later entry, in order."""
        gone = self.ledger.gone
        entries = self.notebook.sign_offs
        found = [*self._found, *(ahead(entry) for entry in entries if lies_ahead(entry, self.today)),
                 *(before_another(*one) for one in backward(entries, frozenset(gone), self.today))]
        return tuple(sorted((one for one in found if one.number not in gone), key=lambda one: one.number))

    @cached_property
    def ledger(self) -> Ledger:
        """What stands after the whole book. An entry that lies ahead gives nothing yet."""
        ledger = Ledger()
        self._found: list[Breach] = []
        self._void: set[int] = set()
        for entry in self.notebook.sign_offs:
            found = list(self.judge(entry, ledger))
            self._found += found
            if lies_ahead(entry, self.today) or any(one.article in (Article.SIGNER, Article.SELF) for one in found):
                self._void.add(entry.number)
            ledger.enter(entry, gives=entry.number not in self._void)
        return ledger

    def ledger_on(self, day: date) -> Ledger:
        """What stands on a day: entries that are dated later give nothing yet."""
        whole = self.ledger
        if all(entry.date is None or entry.date.value.first <= day for entry in self.notebook.sign_offs):
            return whole
        ledger = Ledger()
        for entry in self.notebook.sign_offs:
            if entry.date is None or entry.date.value.first <= day:
                ledger.enter(entry, gives=entry.number not in self._void)
        return ledger

    def judge_next(self, entry: SignOff) -> list[Breach]:
        """What would be against the law in an entry at the end of the book."""
        if lies_ahead(entry, self.today):
            return [ahead(entry)]
        taken_back = {int(one) for one in (entry.withdraws, entry.corrects) if one is not None}
        book = (*self.notebook.sign_offs, entry)
        dates = backward(book, frozenset(self.ledger.gone) | taken_back, self.today)
        return [*(before_another(*one) for one in dates if one[0] is entry), *self.judge(entry, self.ledger)]

    def judge(self, entry: SignOff, ledger: Ledger) -> Iterator[Breach]:
        """What is against the law in an entry, after those in ``ledger``, but for its date."""
        if entry.withdraws is not None:
            yield from self._taking_back(entry, entry.withdraws, ledger)
            return
        if entry.corrects is not None:
            yield from earlier_holds(entry, entry.corrects, ledger)
        yield from says(entry)
        yield from self._known(entry)
        yield from self._signer(entry, ledger)
        skill = self.notebook.skills.get(str(entry.skill))
        if entry.learner is None or skill is None:
            return
        yield from items_known(entry, skill)
        if works(entry, skill):
            yield from self._needs(entry, skill, ledger)
            yield from self._age(entry, skill)
        if self.notebook.unread.isdisjoint(_FILES):
            yield from self._cited(entry, skill)
            proved = self.holds(str(entry.learner), str(skill.skill), "alone", ledger, day_of(entry))
            if entry.override is None:
                if not proved:
                    yield from self._level(entry, skill, ledger)
                yield from self._proof(entry, skill, proved)

    # ------------------------------------------------------------------ whom and what the notebook knows

    def _known(self, entry: SignOff) -> Iterator[Breach]:
        """Nobody and nothing that merely looks like one the notebook knows: other letters, other capitals."""
        for text, shelf, file, none in (
            (entry.learner, self.notebook.people, "people", "`{}` is nobody of the shop."),
            (entry.skill, self.notebook.skills, str(entry.skill), "There is no skill `{}`."),
        ):
            if text is not None and shelf and text not in shelf and file not in self.notebook.unread:
                like = look_alike(text, shelf)
                told = none.format(text) + (f" It looks like `{like}`, and is not written with the same letters."
                                            if like else "")
                yield breach(Article.SAYS, entry, text.at, told,
                             "An entry names people and skills as the notebook does.")

    # ------------------------------------------------------------------ who signs

    def may_sign(self, person: str, skill: str, ledger: Ledger, day: date | None, on: Dated | None = None) -> bool:
        """Whether somebody may sign for a skill: who is in the shop and teaches it on that day, or is a founder."""
        return (person in self.notebook.people and (on is None or self.here(person, on))
                and (self.founder(person) or self.teaches(person, skill, ledger, day)))

    def founder(self, person: str) -> bool:
        """Whether the chain of sign-offs begins with this person."""
        known = self.notebook.people.get(person)
        return known is not None and known.founding in _YES

    def here(self, person: str, on: Dated | None) -> bool:
        """Whether somebody is in the shop on a day; who is not listed, or on no day, is not judged."""
        known = self.notebook.people.get(person)
        if known is None or on is None:
            return True
        come = known.joined is None or known.joined.value.first <= on.value.last
        return come and (known.left is None or on.value.first <= known.left.value.last)

    def teaches(self, person: str, skill: str, ledger: Ledger, day: date | None) -> bool:
        """Whether somebody teaches a skill on a day, and has not let it rest."""
        return self.holds(person, skill, "teaches", ledger, day)

    def holds(self, person: str, skill: str, level: str, ledger: Ledger, day: date | None) -> bool:
        """Whether somebody holds a skill at least so far on a day, and has not let it rest."""
        held = ledger.held(person, skill)
        if held is None or held.level is None or rank(held.level) < rank(level):
            return False
        return day is None or not self._rests(held, day)

    def _rests(self, held: SignOff, day: date) -> str:
        """Why what an entry gave rests on a day; empty where it holds."""
        signed = held.date.value.last if held.date is not None else None
        who, skill, level = str(held.learner), str(held.skill), str(held.level)
        stale = self.fresh.stale_since(who, skill, level, signed, day)
        if stale is not None:
            return f"`{who}` had not practised `{skill}` for so long that the right to teach it rested from {stale} on."
        paper = run_out(self.notebook, who, skill, level, day)
        if paper is None:
            return ""
        return f"“{paper.paper.paper}” of `{who}` was good until {paper.last}, and without it `{skill}` rested."

    def _signer(self, entry: SignOff, ledger: Ledger) -> Iterator[Breach]:
        who, skill = entry.who, str(entry.skill)
        fix = "Somebody who teaches the skill signs it."
        if who is None:
            yield breach(Article.SIGNER, entry, entry.number_text.at, "Nobody has signed this.", fix)
        elif who == entry.learner:
            yield breach(Article.SELF, entry, who.at, f"`{who}` has signed for himself or herself.", fix)
        elif self.notebook.people and "people" not in self.notebook.unread:
            yield from self._entitled(entry, who, skill, ledger, fix)

    def _entitled(self, entry: SignOff, who: Text, skill: str, ledger: Ledger, fix: str) -> Iterator[Breach]:
        day = day_of(entry)
        if self.may_sign(who, skill, ledger, day, entry.date):
            return
        held = ledger.held(who, skill)
        rests = self._rests(held, day) if held is not None and day is not None else ""
        if who not in self.notebook.people:
            like = look_alike(who, self.notebook.people)
            told = f"`{who}` is nobody of the shop."
            told += f" It looks like `{like}`, and is not written with the same letters." if like else ""
        elif not self.here(who, entry.date):
            told = f"`{who}` was not in the shop on {entry.date}."
        elif held is not None and held.level == "teaches" and rests:
            told = rests
        else:
            before = f"holds it `{held.level}`" if held is not None else "does not hold it"
            told = f"`{who}` does not teach `{skill}`: by this book `{who}` {before} when this is signed."
        yield breach(Article.SIGNER, entry, who.at, told, fix)

    def _taking_back(self, entry: SignOff, number: Text, ledger: Ledger) -> Iterator[Breach]:
        earlier = ledger.entry(int(number))
        if not entry.because:
            yield breach(Article.TAKES_BACK, entry, number.at, f"Entry {number} is taken back without a reason.",
                          "Write the reason under `because`.")
        if earlier is None or int(number) in ledger.gone:
            yield from earlier_holds(entry, number, ledger)
            return
        who, skill, day = entry.who, str(earlier.skill), day_of(entry)
        fix = "It is taken back by who signed it, by who teaches the skill, or by a founder."
        if who is None:
            yield breach(Article.SIGNER, entry, entry.number_text.at, "Nobody has signed this.", fix)
        elif who == earlier.learner:
            yield breach(Article.SELF, entry, who.at, f"`{who}` takes back what was signed for himself or herself.",
                          fix)
        elif self.notebook.people and "people" not in self.notebook.unread and not (
            self.may_sign(who, skill, ledger, day, entry.date)
            or (who == earlier.who and who in self.notebook.people and self.here(who, entry.date))
        ):
            yield breach(Article.SIGNER, entry, who.at,
                          f"`{who}` neither signed entry {number} nor teaches `{skill}`.", fix)

    # ------------------------------------------------------------------ what comes first, and age

    def _needs(self, entry: SignOff, skill: Skill, ledger: Ledger) -> Iterator[Breach]:
        if self.founder(str(entry.learner)):
            return
        for need in skill.needs:
            level = str(need.level or "alone")
            if level in LEVELS and need.skill in self.notebook.skills and not self.holds(
                str(entry.learner), str(need.skill), level, ledger, day_of(entry)
            ):
                yield breach(Article.NEEDS, entry, at_text(entry.learner, entry),
                              f"`{skill.skill}` needs `{need.skill}` at least `{level}` first, and `{entry.learner}` "
                              "does not hold that.", f"Sign `{need.skill}` first.")

    def _age(self, entry: SignOff, skill: Skill) -> Iterator[Breach]:
        person, day = self.notebook.people.get(str(entry.learner)), day_of(entry)
        level = str(entry.level) if entry.level is not None and entry.level != LEVELS[0] else LEVELS[1]
        asked = self.ages.of_skill(str(skill.skill), level)
        if person is None or asked is None or day is None:
            return
        if person.born is None:
            yield breach(Article.AGE, entry, at_text(entry.learner, entry),
                          f"When {person.name} was born is not written, and {asked.of} asks for {asked.written}.",
                          "Write `born` in `skills/people.yml`; a bare year counts from its last day.")
            return
        # of a year of birth without a day the last day counts: nobody is taken for older than is known
        old_enough = asked.reached(person.born.value.last)
        if day < old_enough:
            yield breach(Article.AGE, entry, at_text(entry.learner, entry),
                          f"{person.name} was too young on {day.isoformat()}: {asked.of} asks for {asked.written}, "
                          f"which is reached on {old_enough.isoformat()}.",
                          f"Until then `{self._of_age(person.born, str(skill.skill), level, day)}` can be signed, "
                          "and no more; where the law draws the line higher, the law goes first.")

    def _of_age(self, born: Dated, skill: str, level: str, day: date) -> str:
        """The highest level below this one for which somebody is old enough."""
        below = (one for one in reversed(LEVELS[1:LEVELS.index(level)]) if (
            asked := self.ages.of_skill(skill, one)) is None or asked.reached(born.value.last) <= day)
        return next(below, LEVELS[0])

    # ------------------------------------------------------------------ what was shown

    def _level(self, entry: SignOff, skill: Skill, ledger: Ledger) -> Iterator[Breach]:
        learner, id_ = str(entry.learner), str(skill.skill)
        shown = ledger.shown(learner, id_).keys() | set(map(str, entry.items))
        asked = [str(show.id) for show in skill.checklist if show.id is not None]
        fix = "Sign the items first, or write under `override` why it is signed without them."
        if entry.level in ("alone", "teaches"):
            missing = [f"`{item}`" for item in asked if item not in shown]
            if missing:
                yield breach(Article.LEVEL, entry, entry.level.at,
                              f"`{entry.level}` is signed, but not yet {', '.join(missing)} of the checklist.", fix)
        elif entry.level == "within call":
            if asked and not shown:
                yield breach(Article.LEVEL, entry, entry.level.at,
                              "`within call` is signed, but nothing of the checklist.", fix)
            if skill.proof is not None and not self.evidence.has("practice", learner, id_, day_of(entry)):
                yield breach(Article.LEVEL, entry, entry.level.at,
                              f"`within call` is signed, but no practice of `{learner}` beside the teacher stands in "
                              "the books.", "Enter the practice first, or write under `override` why not.")

    def _proof(self, entry: SignOff, skill: Skill, proved: bool) -> Iterator[Breach]:
        learner, day, cited = str(entry.learner), day_of(entry), self.evidence.cited(entry)
        fix = "Enter what is missing in the books first, or write under `override` why it is signed without it."
        for line in item_lines(self.evidence, skill, set(map(str, entry.items)), learner, day, cited):
            if not line.enough:
                yield breach(Article.PROOF, entry, at_text(entry.items[0], entry), f"Item {line.told}.", fix)
        if entry.level in ("alone", "teaches") and not proved:
            for line in proof_lines(self.evidence, skill, learner, day, cited):
                if not line.enough:
                    yield breach(Article.PROOF, entry, entry.level.at, f"Not enough proof: {line.told}.", fix)

    def _cited(self, entry: SignOff, skill: Skill) -> Iterator[Breach]:
        for text in entry.evidence:
            if CITED.fullmatch(text.strip()) is None:
                continue  # words of the signer's own
            record = self.evidence.record(text)
            told = "it does not stand in the books" if record is None else self._not_of(record, entry, skill)
            if told:
                yield breach(Article.EVIDENCE, entry, text.at, f"This rests on {text}, but {told}.",
                              "Name the entry that shows it.")

    def _not_of(self, record: Record, entry: SignOff, skill: Skill) -> str:
        """What is wrong with a record as evidence; empty where nothing is."""
        day = day_of(entry)
        if self.evidence.answered(record):
            return "a later entry has taken it back or corrected it"
        if day is not None and record.date is not None and record.date.value.first > day:
            return f"that was only on {record.date}"
        if record.KIND in ("practice", "trial") and record.who != entry.learner:
            return f"that is of `{record.who}`"
        if record.KIND in ("practice", "trial", "measurement") and skill.skill not in self.evidence.skills_of(record):
            return f"that has nothing to do with `{skill.skill}`"
        return ""
