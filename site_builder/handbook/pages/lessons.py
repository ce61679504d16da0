"""What to learn next, and from whom: the plan of lessons, what it cannot reach, and what must be found anew."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import timedelta
from functools import cached_property

from site_builder.handbook.finder import Part
from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.hours_of_teaching import hours, hours_told
from site_builder.handbook.pages.papers_told import papers_first
from site_builder.handbook.pages.people_index import PeopleIndex
from site_builder.handbook.pages.render import pressed
from site_builder.handbook.pages.soundness import unsound
from site_builder.handbook.pages.without import book_paths
from site_builder.handbook.site import HANDS, LESSONS, WITHOUT, Page
from site_builder.skills.holders import LEVELS
from site_builder.skills.lessons import Bar, Goal, Plan, bars, plan
from site_builder.skills.loss import NOBODY
from site_builder.skills.recovery import Recovery, Written, recoveries
from site_builder.skills.schooling import AHEAD, LEARNING, OF_THE_HOURS, Schooling, schooling_of
from site_builder.skills.teaching import LESSONS as UNTOLD
from site_builder.skills.teaching import Basis
from site_builder.skills.timetable import ALONE, BEHIND, Lesson
from site_builder.views.counts import number
from site_builder.views.dates import dated_day
from site_builder.views.prose import Prose, Ref, capital, joined, linked, listed, lowered, prose, say
from site_builder.views.typeset import typeset

LAW = (
    "Ages here are the shop’s own lines. The law where you work, above all on the work of children and young people, "
    "comes first, and so do the makers’ instructions."
)
_BARS = {
    Bar.NO_TEACHER: "nobody here may teach it",
    Bar.NEED_NO_TEACHER: "nobody may teach what it needs first",
    Bar.CIRCLE: "what it needs first needs it in turn",
    Bar.AGE: "too young, or not known to be old enough",
    Bar.NO_HOURS: "no hours for lessons",
    Bar.TOO_LONG: f"not within the next {AHEAD // 52} years",
}


@dataclass(frozen=True)
class Planned:
    """A shop's school with its plan, as the page and the command tell of it."""

    people_index: PeopleIndex
    context: PageContext

    @cached_property
    def schooling(self) -> Schooling:
        analysis = self.people_index.book.analysis
        return schooling_of(
            self.people_index.knowledge, analysis.holders, self.people_index.ages, self.people_index.teaching
        )

    @cached_property
    def plan(self) -> Plan:
        return plan(self.schooling.school)

    # ------------------------------------------------------------------ in words

    def summary(self) -> Prose:
        """How many skills want another hand, and by when they could have it."""
        wanted, goals = self.schooling.school.wanted, self.plan.goals
        if not self.schooling.school.subjects:
            return prose("No skill is written down yet.")
        hands = f"{number(wanted)} pair{'' if wanted == 1 else 's'} of hands"
        if not goals:
            return say("Every skill is in at least {}. No lesson is due.", hands)
        short = {goal.skill for goal in goals}
        told = capital(f"{number(len(short))} of {number(len(self.schooling.school.subjects))} skills "
                       f"{'is' if len(short) == 1 else 'are'} in fewer than {hands}.")
        weeks = [goal.week for goal in goals if goal.week is not None]
        never = {goal.skill for goal in goals if goal.week is None}
        if weeks and not never:
            return say("{} All of it could be done by {}.", told, dated_day(self.schooling.day(max(weeks))))
        if weeks:
            return say("{} {} cannot be brought so far; the rest could be done by {}.",
                told, capital(number(len(never))), dated_day(self.schooling.day(max(weeks))))
        return say("{} None of them can be brought so far by lessons.", told)

    def lesson(self, one: Lesson) -> tuple[Prose, Prose]:
        """(what, who from whom and when) of a lesson."""
        level = LEVELS[one.rank - 1]
        first = self.schooling.monday + timedelta(weeks=one.weeks[0][0])
        last, signed = self.schooling.day(one.weeks[-1][0]), self.schooling.day(one.signed)
        title = say("{}: {} from {}",
            self._skill(one.skill, first=True), self._person(one.learner), self._person(one.teacher))
        when = f"{hours(one.minutes)} of lessons, from {dated_day(first)} to {dated_day(last)}; "
        then = f"then {level}" if one.signed == one.weeks[-1][0] else f"old enough for {level} by {dated_day(signed)}"
        why = "" if one.rank >= ALONE else ", as far as the next needs it"
        first_paper = papers_first(self.people_index, self.context, one.learner, one.skill)
        return title, say("{}{}{}.{}", when, then, why, first_paper and say(" {}", first_paper))

    def goals(self) -> Iterator[list[Prose]]:
        """A row for each aim; one that cannot be planned stands there once."""
        never: set[str] = set()
        seen: set[str] = set()
        for goal in self.plan.goals:
            if goal.week is None and goal.skill in never:
                continue
            if goal.week is None:
                never.add(goal.skill)
            yield self._goal(goal, goal.skill in seen)
            seen.add(goal.skill)

    def _goal(self, goal: Goal, again: bool) -> list[Prose]:
        """The skill, the hands that hold it now, how many then, by when, and the earliest there could be.

        What is told of a skill ``again`` goes on from its row before, so that its hands of now stand there once.
        """
        now = self.schooling.school.holders(goal.skill)
        day = dated_day(self.schooling.day(goal.week)) if goal.week is not None else "cannot be planned"
        early = dated_day(self.schooling.day(goal.earliest)) if goal.earliest is not None else ""
        return [self._skill(goal.skill, first=True), prose("" if again else number(now) if now else "none"),
                prose(number(goal.holder)), prose(day),
                prose(early if goal.week is not None and goal.earliest != goal.week else "")]

    def unreached(self) -> Iterator[Prose]:
        """Each skill that stays short, and what bars the way of each who does not hold it."""
        for skill in dict.fromkeys(goal.skill for goal in self.plan.goals if goal.week is None):
            people = defaultdict(list)
            for person, bar in bars(self.schooling.school, skill).items():
                people[bar].append(self._person(person))
            reasons = joined((say("{}: {}", listed(who), _BARS[bar]) for bar, who in people.items()), "; ")
            yield say("**{}** {}.",
                self._skill(skill, first=True), reasons or prose("there is nobody else to learn it"))

    def to_find_anew(self) -> Iterator[Prose]:
        """Each skill without a teacher, as a task of its own."""
        analysis = self.people_index.book.analysis
        for one in recoveries(analysis.references, analysis.told, self.people_index.knowledge):
            yield say("**{}** {}", self._skill(one.skill, first=True),
                                                joined(self._recovery(one)))

    def _recovery(self, one: Recovery) -> Iterator[Prose]:
        if one.able:
            yield say("{} can still do it alone: let it be shown to a founder, and be signed to teach it.",
                self._people(one.able))
        if one.resting:
            yield say("{} could once, and is the first to ask.", self._people(one.resting))
        if one.written:
            yield say("Written: {}.", joined((self._written(text) for text in one.written), "; "))
        else:
            yield prose("No procedure of it is written.")
        if one.items:
            yield say("What one shows for it is written: {} items.", number(one.items))
        lost = dict.fromkeys(words for text in one.written for words in text.untold)
        if lost:
            yield say("To be found anew at the bench: {}.", "; ".join(lost))
        for question in one.questions:
            yield say("Open: {}", self.context.words(question))

    def _written(self, text: Written) -> Prose:
        told = [f"{number(text.steps)} step{'' if text.steps == 1 else 's'}"]
        if text.questions:
            told.append(f"{number(text.questions)} open question{'' if text.questions == 1 else 's'}")
        return say("{}, {}",
            self.context.link(
                "procedure", text.procedure, lowered(typeset(self.context.title("procedure", text.procedure)))
            ),
            listed(told),
        )

    def to_teach(self) -> Iterator[Prose]:
        """Where only one may teach, who could be signed for that too."""
        known = self.people_index.knowledge
        groups: dict[tuple[str, ...], list[str]] = defaultdict(list)
        for skill, teachers in known.teachers.items():
            if len(teachers) == 1 and len(known.able.get(skill, NOBODY)) > 1:
                groups[self.people_index.in_order(known.able[skill] - teachers)].append(skill)
        for people, skills in groups.items():
            yield say("**{}**: {}.", listed((self._person(one) for one in people), "or"),
                                                  listed(self._skill(skill) for skill in skills))

    def assumed(self) -> Iterator[Prose]:
        """What the plan rests on that nobody has written down."""
        made = self.schooling
        planned = dict.fromkeys(lesson.skill for lesson in self.plan.lessons)
        by_basis = {basis: [skill for skill in planned if made.teaching[skill].basis is basis] for basis in Basis}
        if told := by_basis[Basis.WRITTEN]:
            yield say("How many hours of teaching it takes is written in the skill’s own file for {}.",
                listed(self._skill(one) for one in told))
        for skill in by_basis[Basis.PRACTICE]:
            yield say("How many hours of teaching {} takes is reckoned from the book of practice. {}",
                self._skill(skill), hours_told(self.people_index, self.context, skill))
        if untimed := by_basis[Basis.ASSUMED]:
            yield say("How many hours it takes is not told for {}, nor can it be reckoned from the book of "
                         "practice: {} are assumed. It is written under `lessons`.",
                listed(self._skill(one) for one in untimed), hours(UNTOLD))
        yield say("Whoever has reached a level has part of the teaching behind: {}. An assumption.",
            listed(f"{LEVELS[rank - 1]} {BEHIND[rank] * 10} %" for rank in range(1, ALONE)))
        if made.unplanned:
            yield say("Time for lessons is not told for {}: one hour in {} of the working time is assumed. It is "
                         "written under `learning`.",
                self._people(made.unplanned), number(OF_THE_HOURS))
        if made.unhoured:
            yield say("Working time is not told for {}: {} of lessons a week are assumed.",
                self._people(made.unhoured), hours(LEARNING))

    def how_good(self) -> Prose:
        """Whether there is a better plan that keeps the order."""
        order = ("Skills with the fewest hands come first, among them those that most of the hours ask for; no later "
                 "lesson takes an hour from an earlier one.")
        if self.plan.proven:
            return say("{} Every way to share learners and teachers was weighed: keeping this order, nothing can be "
                          "done earlier without something before it being done later.", order)
        proven = sum(goal.proven for goal in self.plan.goals)
        return say("{} There are too many ways to weigh them all: the first {} of these {} aims are reached as "
                      "early as can be, the others perhaps not, but never before the earliest day given.",
            order, number(proven), number(len(self.plan.goals)))

    def _skill(self, skill: str, *, first: bool = False) -> Prose:
        title = typeset(self.context.title("skill", skill))
        return self.context.link("skill", skill, title if first else lowered(title))

    def _person(self, person: str) -> Prose:
        return self.context.link("person", person, self.people_index.short[person])

    def _people(self, people: Iterable[str]) -> Prose:
        return listed(self._person(one) for one in people)


def lessons_sheet(people_index: PeopleIndex) -> Page:
    """The page of the next lessons."""
    context = PageContext(people_index.book, LESSONS)
    made = Planned(people_index, context)
    lede = made.summary()
    html = pressed(
        "lessons.html.j2", context,
        kicker=say("{}", linked("The hands", Ref("chapter", HANDS))), lede=lede,
        unsound=unsound(people_index.book, book_paths(people_index.book.notebook)),
        law=LAW, lessons=[("", title, when) for title, when in map(made.lesson, made.plan.lessons)],
        goals=[*made.goals()], how_good=made.how_good() if made.plan.goals else "",
        unreached=[*made.unreached()], anew=[*made.to_find_anew()], to_teach=[*made.to_teach()],
        assumed=[*made.assumed()] if made.plan.lessons else [],
        without=say("{} says what hangs on whom.", linked("If one of us left", Ref("chapter", WITHOUT))),
    )
    parts = (Part("in-this-order", "What to learn next: the lessons in order"),) if made.plan.lessons else ()
    return Page(LESSONS, "What to learn next", html, lede.plain, parts, "skills/people.yml")
