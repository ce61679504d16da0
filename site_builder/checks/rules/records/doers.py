"""Rules on who did what an entry tells."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import chain

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.lawful import against
from site_builder.checks.rules.records.standing import standing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.records import Practice, Trial
from site_builder.skills.breach import Article
from site_builder.skills.entry_dates import MEND
from site_builder.skills.grading import PLAIN
from site_builder.skills.holders import LEVELS
from site_builder.skills.readings import figures_of

OWN_SIGN_OFF = Rule(
    "own-sign-off", Level.ERROR, "Somebody signed for himself.",
    "A sign-off is the word of one who is entitled to give it, about another. Nobody signs for himself, not even "
    "the master.",
    """\
=== skills/records/sign-offs.yml
---
sign-off: 1
✓ who: edda
✗ who: ▸josk
learner: josk
skill: filing
level: alone
""", against(Article.SELF),
)


def own_teacher(analysis: Analysis) -> Iterator[Found]:
    books = standing(analysis, Practice), standing(analysis, Trial)
    entries: Iterator[tuple[Practice | Trial, Place]] = chain(*books)
    for entry, place in entries:
        if entry.teacher is not None and entry.teacher == entry.who:
            yield Found(
                entry.teacher.at, f"`{entry.who}` stands here as his or her own teacher.",
                MEND.format(entry.number), place.owner_id,
            )


OWN_TEACHER = Rule(
    "own-teacher", Level.ERROR, "Somebody practised, or was tried, as his own teacher.",
    "The teacher is the second pair of eyes. Nobody sees the faults that his own hands make.",
    """\
=== skills/records/practice.yml
---
practice: 1
who: ansa
✓ teacher: tilde
✗ teacher: ▸ansa
✗ === skills/records/trials.yml
✗ ---
✗ trial: 1
✗ who: ansa
✗ teacher: ▸ansa
""", own_teacher,
)


def verdict_unknown(analysis: Analysis) -> Iterator[Found]:
    grading = analysis.law.evidence.grading
    for trial, place in standing(analysis, Trial):
        scale = grading.scale(str(trial.felt))
        wrong = next((one for one in trial.verdicts.values() if one not in scale), None)
        if wrong is None or all(one in PLAIN for one in trial.verdicts.values()):
            continue
        words = ", ".join(f"`{one}`" for one in reversed(scale))
        plain = "" if scale == PLAIN else " Good and bad alone will do too, but not among grades."
        yield Found(wrong.at, f"`{wrong}` is no verdict that is given there. There are: {words}.{plain}",
                    MEND.format(trial.number), place.owner_id)


_SHOP = """\
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
steps:
  - id: look
    do: Look at it against the window.
    checks:
      - good: One colour.
        grades: {first: Nothing to see at arm's length., second: A grain or two on the inside.}
=== skills/records/trials.yml
---
trial: 1
who: edda
date: 2026-06-19
felt: paint-foot/look
verdicts: {a: first, b: second, c: bad}
"""


VERDICT_UNKNOWN = Rule(
    "verdict-unknown", Level.ERROR, "A verdict in a feel trial that is neither good nor bad nor a grade of that work.",
    "Two verdicts can only be held against each other where both come from the same few words.",
    """\
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
steps:
  - id: look
    do: Look at it against the window.
    checks:
      - good: One colour.
        grades: {first: Nothing to see at arm's length., second: A grain or two on the inside.}
=== skills/records/trials.yml
---
trial: 1
who: edda
date: 2026-06-19
felt: paint-foot/look
✓ verdicts: {a: first, b: second, c: bad}
✗ verdicts: {a: first, b: ▸fine, c: bad}
""", verdict_unknown,
)


def more_than_made(analysis: Analysis) -> Iterator[Found]:
    for entry, place in standing(analysis, Practice):
        pieces, scrap, rework = _count(entry.pieces), _count(entry.scrap), _count(entry.rework)
        last = entry.scrap if entry.rework is None else entry.rework
        if last is not None and pieces is not None and (scrap or 0) + (rework or 0) > pieces:
            told = " and ".join(text for text in (
                f"{entry.scrap} scrapped" if scrap else "", f"{entry.rework} done again" if rework else "",
            ) if text)
            yield Found(
                last.at, f"Of {entry.pieces} pieces {told}: that is more than were made.",
                MEND.format(entry.number), place.owner_id,
            )


def _count(written: Written | None) -> Fraction | None:
    found = None if written is None else figures_of(written.value)
    return None if found is None else found.aim_low


MORE_THAN_MADE = Rule(
    "more-than-made", Level.ERROR, "More pieces failed than were made.",
    "The share of good pieces decides over a sign-off. A piece is good, or scrap, or done again, and counted once.",
    """\
=== skills/records/practice.yml
---
practice: 1
who: tilde
pieces: 40
scrap: 2
✓ rework: 3
✗ rework: ▸39
""", more_than_made,
)


_WATCHES, _BESIDE, *_ = LEVELS


def worked_too_young(analysis: Analysis) -> Iterator[Found]:
    ages = analysis.law.ages
    for entry, place in standing(analysis, Practice):
        person = analysis.notebook.people.get(str(entry.who))
        if person is None or person.born is None or entry.date is None or entry.procedure is None:
            continue
        if entry.level == _WATCHES:
            continue
        asked = ages.of_procedure(str(entry.procedure), str(entry.level or _BESIDE))
        if asked is None:
            continue
        # of a year of birth without a day the last day counts: nobody is taken for older than is known
        old_enough = asked.reached(person.born.value.last)
        if entry.date.value.last < old_enough:
            yield Found(
                entry.date.at,
                f"{person.name} was too young for this work on {entry.date}: {asked.of} asks for {asked.written}, "
                f"which is reached on {old_enough.isoformat()}.",
                "Until then let the learner watch and study; where the law draws the line higher, the law goes first. "
                "The entry stays, for it tells what was done.", place.owner_id,
            )


WORKED_TOO_YOUNG = Rule(
    "worked-too-young", Level.WARNING, "Pieces were made by somebody younger than the work allows.",
    "A sign-off refuses who is too young; the work itself does not. The book of practice shows where it "
    "happened, before somebody is hurt.",
    """\
=== procedures/grind.yml
procedure: grind
title: Grind
tools: grinder
steps: Grind it.
=== tools/grinder.yml
machine: grinder
title: Grinder
age: min 16 y
=== skills/people.yml
people:
  ansa: {name: Ansa, born: 2010-06-19}
=== skills/records/practice.yml
---
practice: 1
who: ansa
✓ date: 2026-06-19
✗ date: ▸2026-06-18
procedure: grind
level: beside
pieces: 6
""", worked_too_young,
)
