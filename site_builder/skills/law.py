"""The law of sign-offs.

1. Who signs teaches that skill on that day, and is in the shop; or is a founder of the shop.
2. Nobody signs for himself.
3. An entry says who has learned which skill how far, or which items of its checklist were shown, and when.
4. What the skill needs first is held; of a founder, whose mastery is taken as given, it is not asked.
5. The learner is old enough.
6. A level follows from what was shown. Within call: something of the checklist, where there is one, and practice
   in the books, where the skill asks for proof. Alone, and to teach: every item of the checklist.
7. The proof that the skill asks for stands in the books. Of who works alone already, neither 6 nor 7 is asked a
   second time.
8. What an entry names as its evidence stands in the books, and is of this learner and this skill.
9. An entry is taken back by who signed it, by who teaches that skill, or by a founder, and with a reason.
10. Dates do not run backward.

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
from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from functools import cached_property

from site_builder.notebook.finding import At
from site_builder.notebook.model.parsed_values import Dated
from site_builder.notebook.model.people import Skill
from site_builder.notebook.model.records import Record, SignOff
from site_builder.notebook.tree import Text
from site_builder.skills.ages import Ages
from site_builder.skills.book import BOOK_FILES
from site_builder.skills.evidence import CITED, Evidence
from site_builder.skills.fresh import Freshness
from site_builder.skills.ledger import LEVELS, Ledger, rank
from site_builder.skills.papers import run_out
from site_builder.skills.proof_due import item_lines, proof_lines
from site_builder.skills.readings import ReadingJudge

_YES = ("yes", "true")
_FILES = frozenset(file.removesuffix(".yml") for file in BOOK_FILES.values())


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


class Law:
    """The law, held against the book of sign-offs of a notebook."""

    def __init__(self, judge: ReadingJudge) -> None:
        self.notebook = judge.notebook
        self.evidence = Evidence(judge)
        self.fresh = Freshness(self.notebook)
        self.ages = Ages(judge.references)
        self._latest: Dated | None = None

    @cached_property
    def breaches(self) -> tuple[Breach, ...]:
        """Everything in the book that is against the law and was not answered by a later entry, in order."""
        ledger = self.ledger
        return tuple(breach for breach in self._found if breach.number not in ledger.gone)

    @cached_property
    def ledger(self) -> Ledger:
        """What stands after the whole book."""
        ledger = Ledger()
        self._found: list[Breach] = []
        self._void: set[int] = set()
        for entry in self.notebook.sign_offs:
            found = list(self.judge(entry, ledger))
            self._found += found
            if any(breach.article in (Article.SIGNER, Article.SELF) for breach in found):
                self._void.add(entry.number)
            ledger.enter(entry, gives=entry.number not in self._void)
            if entry.date is not None and not any(breach.article is Article.DATE for breach in found):
                self._latest = entry.date
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
        return list(self.judge(entry, self.ledger))

    def judge(self, entry: SignOff, ledger: Ledger) -> Iterator[Breach]:
        """What is against the law in an entry, after those in ``ledger``."""
        if entry.date is not None and self._latest is not None and entry.date.value.last < self._latest.value.first:
            yield _breach(Article.DATE, entry, entry.date.at, f"{entry.date} is before {self._latest}, the date of "
                          "an earlier entry.", "An entry is dated with the day on which it is written.")
        if entry.withdraws is not None:
            yield from self._taking_back(entry, entry.withdraws, ledger)
            return
        if entry.corrects is not None:
            yield from _earlier(entry, entry.corrects, ledger)
        yield from _says(entry)
        yield from self._signer(entry, ledger)
        skill = self.notebook.skills.get(str(entry.skill))
        if entry.learner is None or skill is None:
            return
        yield from _items(entry, skill)
        if _works(entry, skill):
            yield from self._needs(entry, skill, ledger)
            yield from self._age(entry, skill)
        if self.notebook.unread.isdisjoint(_FILES):
            yield from self._cited(entry, skill)
            proved = self.holds(str(entry.learner), str(skill.skill), "alone", ledger, _day(entry))
            if entry.override is None:
                if not proved:
                    yield from self._level(entry, skill, ledger)
                yield from self._proof(entry, skill, proved)

    # ------------------------------------------------------------------ who signs

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
            yield _breach(Article.SIGNER, entry, entry.number_text.at, "Nobody has signed this.", fix)
        elif who == entry.learner:
            yield _breach(Article.SELF, entry, who.at, f"`{who}` has signed for himself or herself.", fix)
        elif self.notebook.people:
            yield from self._entitled(entry, who, skill, ledger, fix)

    def _entitled(self, entry: SignOff, who: Text, skill: str, ledger: Ledger, fix: str) -> Iterator[Breach]:
        day = _day(entry)
        held = ledger.held(who, skill)
        rests = self._rests(held, day) if held is not None and day is not None else ""
        if who not in self.notebook.people:
            told = f"`{who}` is nobody of the shop."
        elif not self.here(who, entry.date):
            told = f"`{who}` was not in the shop on {entry.date}."
        elif self.founder(who) or self.teaches(who, skill, ledger, day):
            return
        elif held is not None and held.level == "teaches" and rests:
            told = rests
        else:
            before = f"holds it `{held.level}`" if held is not None else "does not hold it"
            told = f"`{who}` does not teach `{skill}`: by this book `{who}` {before} when this is signed."
        yield _breach(Article.SIGNER, entry, who.at, told, fix)

    def _taking_back(self, entry: SignOff, number: Text, ledger: Ledger) -> Iterator[Breach]:
        earlier = ledger.entry(int(number))
        if not entry.because:
            yield _breach(Article.TAKES_BACK, entry, number.at, f"Entry {number} is taken back without a reason.",
                          "Write the reason under `because`.")
        if earlier is None or int(number) in ledger.gone:
            yield from _earlier(entry, number, ledger)
            return
        who, skill, day = entry.who, str(earlier.skill), _day(entry)
        fix = "It is taken back by who signed it, by who teaches the skill, or by a founder."
        if who is None:
            yield _breach(Article.SIGNER, entry, entry.number_text.at, "Nobody has signed this.", fix)
        elif who == earlier.learner:
            yield _breach(Article.SELF, entry, who.at, f"`{who}` takes back what was signed for himself or herself.",
                          fix)
        elif self.notebook.people and not (
            self.here(who, entry.date)
            and (who == earlier.who or self.founder(who) or self.teaches(who, skill, ledger, day))
        ):
            yield _breach(Article.SIGNER, entry, who.at,
                          f"`{who}` neither signed entry {number} nor teaches `{skill}`.", fix)

    # ------------------------------------------------------------------ what comes first, and age

    def _needs(self, entry: SignOff, skill: Skill, ledger: Ledger) -> Iterator[Breach]:
        if self.founder(str(entry.learner)):
            return
        for need in skill.needs:
            level = str(need.level or "alone")
            if level in LEVELS and need.skill in self.notebook.skills and not self.holds(
                str(entry.learner), str(need.skill), level, ledger, _day(entry)
            ):
                yield _breach(Article.NEEDS, entry, _at(entry.learner, entry),
                              f"`{skill.skill}` needs `{need.skill}` at least `{level}` first, and `{entry.learner}` "
                              "does not hold that.", f"Sign `{need.skill}` first.")

    def _age(self, entry: SignOff, skill: Skill) -> Iterator[Breach]:
        person, day = self.notebook.people.get(str(entry.learner)), _day(entry)
        level = str(entry.level) if entry.level is not None and entry.level != LEVELS[0] else LEVELS[1]
        asked = self.ages.of_skill(str(skill.skill), level)
        if person is None or person.born is None or asked is None or day is None:
            return
        # of a year of birth without a day the first day counts: who is too young even so surely is
        old_enough = asked.reached(person.born.value.first)
        if day < old_enough:
            yield _breach(Article.AGE, entry, _at(entry.learner, entry),
                          f"{person.name} was too young on {day.isoformat()}: {asked.of} asks for {asked.written}, "
                          f"which is reached on {old_enough.isoformat()}.",
                          f"Until then `{self._of_age(person.born, str(skill.skill), level, day)}` can be signed, "
                          "and no more; where the law draws the line higher, the law goes first.")

    def _of_age(self, born: Dated, skill: str, level: str, day: date) -> str:
        """The highest level below this one for which somebody is old enough."""
        below = (one for one in reversed(LEVELS[1:LEVELS.index(level)]) if (
            asked := self.ages.of_skill(skill, one)) is None or asked.reached(born.value.first) <= day)
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
                yield _breach(Article.LEVEL, entry, entry.level.at,
                              f"`{entry.level}` is signed, but not yet {', '.join(missing)} of the checklist.", fix)
        elif entry.level == "within call":
            if asked and not shown:
                yield _breach(Article.LEVEL, entry, entry.level.at,
                              "`within call` is signed, but nothing of the checklist.", fix)
            if skill.proof is not None and not self.evidence.has("practice", learner, id_, _day(entry)):
                yield _breach(Article.LEVEL, entry, entry.level.at,
                              f"`within call` is signed, but no practice of `{learner}` beside the teacher stands in "
                              "the books.", "Enter the practice first, or write under `override` why not.")

    def _proof(self, entry: SignOff, skill: Skill, proved: bool) -> Iterator[Breach]:
        learner, day, cited = str(entry.learner), _day(entry), self.evidence.cited(entry)
        fix = "Enter what is missing in the books first, or write under `override` why it is signed without it."
        for line in item_lines(self.evidence, skill, set(map(str, entry.items)), learner, day, cited):
            if not line.enough:
                yield _breach(Article.PROOF, entry, _at(entry.items[0], entry), f"Item {line.told}.", fix)
        if entry.level in ("alone", "teaches") and not proved:
            for line in proof_lines(self.evidence, skill, learner, day, cited):
                if not line.enough:
                    yield _breach(Article.PROOF, entry, entry.level.at, f"Not enough proof: {line.told}.", fix)

    def _cited(self, entry: SignOff, skill: Skill) -> Iterator[Breach]:
        for text in entry.evidence:
            if CITED.fullmatch(text.strip()) is None:
                continue  # words of the signer's own
            record = self.evidence.record(text)
            told = "it does not stand in the books" if record is None else self._not_of(record, entry, skill)
            if told:
                yield _breach(Article.EVIDENCE, entry, text.at, f"This rests on {text}, but {told}.",
                              "Name the entry that shows it.")

    def _not_of(self, record: Record, entry: SignOff, skill: Skill) -> str:
        """What is wrong with a record as evidence; empty where nothing is."""
        day = _day(entry)
        if self.evidence.answered(record):
            return "a later entry has taken it back or corrected it"
        if day is not None and record.date is not None and record.date.value.first > day:
            return f"that was only on {record.date}"
        if record.KIND in ("practice", "trial") and record.who != entry.learner:
            return f"that is of `{record.who}`"
        if record.KIND in ("practice", "trial", "measurement") and skill.skill not in self.evidence.skills_of(record):
            return f"that has nothing to do with `{skill.skill}`"
        return ""


def _says(entry: SignOff) -> Iterator[Breach]:
    for key, value in (("learner", entry.learner), ("skill", entry.skill), ("date", entry.date)):
        if value is None:
            yield _breach(Article.SAYS, entry, entry.number_text.at, f"This sign-off names no {key}.",
                          f"A sign-off says who has learned what, and when: `{key}` is missing.")
    if entry.level is None and not entry.items:
        yield _breach(Article.SAYS, entry, entry.number_text.at, "This sign-off names no level and no item.",
                      "Write how far somebody has come under `level`, or what was shown under `items`.")


def _works(entry: SignOff, skill: Skill) -> bool:
    """Whether the hands of the learner did something for this entry: more than watching, and saying what was seen."""
    if entry.level != LEVELS[0]:
        return True
    return any(show.id in entry.items and (show.evidence or "seen") != "seen" for show in skill.checklist)


def _items(entry: SignOff, skill: Skill) -> Iterator[Breach]:
    known = {show.id for show in skill.checklist if show.id is not None}
    for item in entry.items:
        if item not in known:
            listed = ", ".join(f"`{one}`" for one in known) or "none with an id"
            yield _breach(Article.SAYS, entry, item.at, f"`{item}` is no item of the checklist of `{skill.skill}`.",
                          f"The checklist has: {listed}.")


def _earlier(entry: SignOff, number: Text, ledger: Ledger) -> Iterator[Breach]:
    if int(number) >= entry.number or ledger.entry(int(number)) is None:
        yield _breach(Article.TAKES_BACK, entry, number.at, f"There is no entry {number} before this one that holds.",
                      "Name the number of the entry that is meant.")
    elif int(number) in ledger.gone:
        yield _breach(Article.TAKES_BACK, entry, number.at,
                      f"Entry {number} was taken back or corrected by entry {ledger.gone[int(number)].number} already.",
                      "Name the entry that holds now.")


def _breach(article: Article, entry: SignOff, at: At, message: str, fix: str) -> Breach:
    return Breach(article, entry.number, at, message, fix)


def _at(text: Text | None, entry: SignOff) -> At:
    return text.at if text is not None else entry.number_text.at


def _day(entry: SignOff) -> date | None:
    return entry.date.value.last if entry.date is not None else None
