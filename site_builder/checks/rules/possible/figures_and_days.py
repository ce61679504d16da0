"""Rules on figures and days that cannot be, or hardly."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing.signers import first_signed
from site_builder.checks.rules.possible.days import HAPPENED
from site_builder.checks.rules.possible.held_to import Held, doubtful, held, impossible
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.parsed_values import Dated
from site_builder.notebook.model.people import Person
from site_builder.quantity import DateSpan

_CLOCKS_APART = timedelta(days=1)
"""Further east it may be tomorrow already."""


def day_ahead(analysis: Analysis) -> Iterator[Found]:
    latest = analysis.today + _CLOCKS_APART
    for leaf, place, key in analysis.index.leaves:
        if not isinstance(leaf.value, DateSpan) or (type(place.entry).__name__, key) not in HAPPENED:
            continue
        if leaf.value.first > latest:
            yield Found(
                leaf.at, f"{leaf} lies ahead: today is {analysis.today.isoformat()}, and `{key}` tells what has been.",
                "Put right the day, above all its year; leave the line out until it has happened.", place.owner_id,
            )


DAY_AHEAD = Rule(
    "day-ahead", Level.ERROR, "A day that lies ahead, for what has happened.",
    "A calibration of next year is never overdue, and a person born tomorrow is never old enough. Most often two "
    "digits of the year were swapped.",
    """\
=== tools/gauges/caliper.yml
gauge: caliper
title: Caliper
✓ calibration: {when: every 12 mo, date: 2026-02-10}
✗ calibration: {when: every 12 mo, date: ▸2062-02-10}
""", day_ahead,
)


def figure_doubtful(analysis: Analysis) -> Iterator[Found]:
    for one in held(analysis):
        odd = doubtful(one)
        if odd:
            yield Found(
                one.written.at, f"`{one.written}` is {odd} for `{one.name}`.",
                "Put right the figure or its unit; where it is right, this may stand.", one.owner,
            )


FIGURE_DOUBTFUL = Rule(
    "figure-doubtful", Level.WARNING, "A figure that can be, but hardly ever is.",
    "A week of seventy hours, a room at fifty degrees: more often than not a unit was mistaken or a digit typed "
    "twice. How far is usual is common practice, drawn wide.",
    """\
=== skills/people.yml
people:
✓   edda: {name: Edda, hours: 35 h/week}
✗   edda: {name: Edda, hours: ▸72 h/week}
""", figure_doubtful,
)


def figure_impossible(analysis: Analysis) -> Iterator[Found]:
    told = set()
    for one in held(analysis):
        if impossible(one):
            told.add(one.written.at)
            yield Found(one.written.at, f"`{one.written}` cannot be: `{one.name}` {one.range.words}.", _mend(one),
                        one.owner)
    for fault in analysis.faults:
        if fault.at not in told:
            yield Found(
                fault.at, f"Nothing can be reckoned with this: {fault.message}.",
                "Put right the figure or its unit; where it is right, another figure beside it is wrong.",
            )


def _mend(one: Held) -> str:
    written = str(one.written)
    if one.range.least_only and written.startswith("max "):
        return f"Write `min {written.removeprefix('max ')}`."
    if one.range.open_low and one.figures[-1] == 0:
        return "Write how much it is, or `ask`; where there is none, leave the line out."
    return "Put right the figure or its unit."


FIGURE_IMPOSSIBLE = Rule(
    "figure-impossible", Level.ERROR, "A figure that nothing in the shop can have.",
    "Numbers have consequences: a negative weight or a loss of more than all there is would spoil every figure "
    "that rests on it. What each key and each name that is known can be stands in one table.",
    """\
=== procedures/foot/sand-foot.yml
procedure: sand-foot
title: Sand the foot
steps:
  - do: Sand it.
✓     settings: {grit: P180}
✓ yield: {scrap: 4 %}
✗     settings: {grit: ▸P185}
✗ yield: {scrap: ▸104 %}
""", figure_impossible,
)


_ORDER = (("born", "joined"), ("born", "left"), ("joined", "left"))


def life_backward(analysis: Analysis) -> Iterator[Found]:
    for person, place in analysis.index.of(Person):
        days: dict[str, Dated | None] = {"born": person.born, "joined": person.joined, "left": person.left}
        for first, second in _ORDER:
            earlier, later = days[first], days[second]
            if earlier is not None and later is not None and later.value.last < earlier.value.first:
                signed = first_signed(analysis).get(place.owner_id)
                # What was signed in between tells which of the two is wrong.
                is_later = first == "joined" or (
                    signed is not None and signed.year >= earlier.value.first.year + YOUNGEST
                )
                yield Found(
                    later.at if is_later else earlier.at,
                    f"{person.name}: `{second}` {later} is before `{first}` {earlier}.",
                    f"Put right the day under `{first}` or the one under `{second}`.", place.owner_id,
                )
                break


LIFE_BACKWARD = Rule(
    "life-backward", Level.ERROR, "Somebody who joined before birth, or left before joining.",
    "Ages, sign-offs and who may do what are reckoned from these days.",
    """\
=== skills/people.yml
people:
✓   havel: {name: Havel, born: 1919, joined: 1946, left: 1994}
✗   havel: {name: Havel, born: 1919, joined: 1946, left: ▸1934}
✗   benno: {name: Benno, born: ▸2019, joined: 2018}
""", life_backward,
)


YOUNGEST, OLDEST = 10, 100
"""Younger nobody joins, older nobody is still at work."""


def life_doubtful(analysis: Analysis) -> Iterator[Found]:
    for person, place in analysis.index.of(Person):
        if person.born is None:
            continue
        born = person.born.value.first
        if person.joined is not None and person.born.value.last <= person.joined.value.last:
            age = person.joined.value.last.year - born.year
            if age < YOUNGEST:
                yield Found(
                    person.joined.at, f"{person.name}, born {person.born}, joined at {age} at the most.",
                    "Put right `born` or `joined`; what a child saw at home may stand under `note`.", place.owner_id,
                )
        until = analysis.today if person.left is None else person.left.value.first
        age = until.year - person.born.value.last.year
        if age > OLDEST:
            yield Found(
                person.born.at, f"{person.name}, born {person.born}, would be over {OLDEST} and still in the shop"
                f"{'' if person.left is None else f' in {until.year}'}.",
                "Put right the year of birth, or write `left` with the year in which they went.", place.owner_id,
            )
        elif person.joined is None and 0 <= until.year - born.year < YOUNGEST:
            yield Found(
                person.born.at, f"{person.name}, born {person.born}, is {until.year - born.year} at the most.",
                "Put right the year of birth; who does not work in the shop yet is no person of it.", place.owner_id,
            )


LIFE_DOUBTFUL = Rule(
    "life-doubtful", Level.WARNING,
    "Somebody who is or joined as a small child, or is over a hundred and still at work.",
    "A year typed wrong makes the learner old enough for what could kill.",
    """\
=== skills/people.yml
people:
✓   havel: {name: Havel, born: 1919, joined: 1946, left: 1994}
✗   havel: {name: Havel, born: ▸1919, joined: 1946}
✗   benno: {name: Benno, born: 1995, joined: ▸1998}
""", life_doubtful,
)
