"""Rules on work bound to days, and on lessons decided, that cannot be as they are written."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from site_builder.analysis.analysis import Analysis
from site_builder.batch.span import written_span
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.sums import ends
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.people import Person
from site_builder.notebook.model.shop import DecidedLesson, Order, Pin
from site_builder.quantity import DateSpan

_WEEK = 7 * 86_400


def pin_impossible(analysis: Analysis) -> Iterator[Found]:
    people = analysis.notebook.people
    for id_, order in analysis.notebook.orders.items():
        for pin in order.pinned:
            person = people.get(str(pin.who)) if pin.who is not None else None
            if pin.date is None:
                continue
            if _outside(order, pin):
                yield Found(pin.date.at, f"{pin.date} lies outside the days of this order.",
                            "Put right the day, or `not before` and `due` of the order.", id_)
            elif person is not None and _away(person, pin.date.value):
                yield Found(pin.date.at, f"{person.name} is away on {pin.date}, and this work is bound to both.",
                            "Write other days or somebody else, or put right `absent` in skills/people.yml.", id_)


def _outside(order: Order, pin: Pin) -> bool:
    assert pin.date is not None
    too_late = order.due is not None and pin.date.value.first > order.due.value.last
    return too_late or (order.not_before is not None and pin.date.value.last < order.not_before.value.first)


def _away(person: Person, span: DateSpan) -> bool:
    days = (span.last - span.first).days
    return days <= 366 and all(
        any(one.value.first <= span.first + timedelta(days=day) <= one.value.last for one in person.absent)
        for day in range(days + 1))


PIN_IMPOSSIBLE = Rule(
    "pin-impossible", Level.ERROR,
    "Work of an order that is bound to days on which it cannot be done.",
    "No season can be planned in which somebody works while away, or before the order begins.",
    """\
=== procedures/foot/fill.yml
procedure: fill
title: Fill
steps: Fill.
=== skills/people.yml
people:
  ada: {name: Ada Ost, absent: 2027-02-08..2027-02-19}
=== procedures/orders/spring.yml
order: spring
title: Spring delivery
due: 2027-05-14
✓ pinned: {work: fill, who: ada, date: 2027-02-15..2027-02-26}
✗ pinned: {work: fill, who: ada, date: ▸2027-02-08..2027-02-12}
""", pin_impossible,
)


def lesson_short(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for lesson, place in analysis.index.of(DecidedLesson):
        skill = nb.skills.get(str(lesson.skill))
        needs = written_span(skill.lessons, "time") if skill is not None and skill.lessons is not None else None
        if lesson.date is None or needs is None or skill is None or lesson.date.value.last <= analysis.today:
            continue
        weeks = (lesson.date.value.last - analysis.today).days / 7
        for id_ in (lesson.who, lesson.teacher):
            person = nb.people.get(str(id_)) if id_ is not None else None
            share = _share(analysis, person) if person is not None else None
            if person is not None and share is not None and share * _WEEK * weeks * 2 < float(needs.least):
                yield Found(
                    lesson.date.at, f"“{skill.title}” takes `{skill.lessons}` of lessons; until {lesson.date} "
                    f"{person.name} has {share * _WEEK * weeks / 3600:.0f} h for them.",
                    "Write a later day, or more under `learning` of both in skills/people.yml.", place.owner_id)
                break


def _share(analysis: Analysis, person: Person) -> float | None:
    """The part of all time that goes to lessons, where it is told as hours a week."""
    found = reckoning(analysis).bounds(person.learning) if person.learning is not None else None
    most = ends(found)[1] if found is not None else None
    if found is None or most is None:
        return None
    return float(most) / _WEEK if found.kind == "time" else float(most)


LESSON_SHORT = Rule(
    "lesson-short", Level.WARNING,
    "Lessons that are decided, and until their day there is less than half the time that they take.",
    "A plan that counts on hands which cannot be taught in time fails when they are needed. Some learn in half the "
    "time, so only what is under half is told. Common practice.",
    """\
=== procedures/shop.yml
shop: corvane
title: The shop
✓ planning: {lessons: {who: ada, skill: spinning, date: 2099-02-15}}
✗ planning: {lessons: {who: ada, skill: spinning, date: ▸2026-12-24}}
=== skills/spinning.yml
skill: spinning
title: Spinning
lessons: 120 h
=== skills/people.yml
people:
  ada: {name: Ada Ost, hours: 30 h/week, learning: 4 h/week}
""", lesson_short,
)
