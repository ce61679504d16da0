"""Rules on skills: what they need, and who holds them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.able import name_of, signed
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.people import Skill
from site_builder.notebook.model.records import Record
from site_builder.notebook.model.small import Need


def skill_self(analysis: Analysis) -> Iterator[Found]:
    for skill, place in analysis.index.of(Skill):
        for need in skill.needs:
            if need.skill == skill.skill:
                yield Found(
                    need.skill.at, f"“{skill.title}” needs itself, so nobody could ever begin to learn it.",
                    "Name the skill that must be held first, or take the line away.", place.owner_id,
                )


SKILL_SELF = Rule(
    "skill-self", Level.ERROR, "A skill that needs itself.",
    "What is needed first must be something else; otherwise there is no first step.",
    """\
=== skills/casting.yml
skill: casting
title: Casting
✓ needs: alloy-keeping
✓ === skills/alloy-keeping.yml
✓ skill: alloy-keeping
✓ title: Keeping the alloy
✗ needs:
✗   - skill: ▸casting
✗     level: within call
""", skill_self,
)


def needs_circle(analysis: Analysis) -> Iterator[Found]:
    skills = analysis.notebook.skills
    for circle in _circles(skills):
        first = circle[0]
        titles = [f"“{skills[need.skill].title}”" for need in circle]
        yield Found(
            first.skill.at,
            f"The needs go round in a circle: {', then '.join((*titles, titles[0]))}. "
            "Nobody could ever begin with any of them.",
            "Say which of them is learned first, and take the other out of its `needs`.",
            str(circle[-1].skill),
        )


def _circles(skills: Mapping[str, Skill]) -> Iterator[tuple[Need, ...]]:
    """Every circle that going down the needs meets, from the need where it was entered."""
    done: set[str] = set()
    for root in skills:
        trail: list[Need] = []
        open_ = {root: 0}
        """The skills on the way down, with the number of needs that led there."""
        rest = [_needs(skills, root)] if root not in done else []
        while rest:
            need = next(rest[-1], None)
            if need is None:
                rest.pop()
                left = str(trail.pop().skill) if trail else root
                del open_[left]
                done.add(left)
            elif need.skill in open_:
                yield (*trail[open_[str(need.skill)]:], need)
            elif need.skill not in done:
                trail.append(need)
                open_[str(need.skill)] = len(trail)
                rest.append(_needs(skills, str(need.skill)))


def _needs(skills: Mapping[str, Skill], skill: str) -> Iterator[Need]:
    return (need for need in skills[skill].needs if need.skill != skill and need.skill in skills)


NEEDS_CIRCLE = Rule(
    "needs-circle", Level.ERROR, "Skills that need each other in a circle.",
    "If the one must be held before the other and the other before the one, no newcomer can ever hold either.",
    """\
=== skills/alloy-keeping.yml
skill: alloy-keeping
title: Keeping the alloy
✗ needs:
✗   - skill: ▸casting
✗     level: beside
=== skills/casting.yml
skill: casting
title: Casting
needs: alloy-keeping
""", needs_circle,
)


def skill_uncovering(analysis: Analysis) -> Iterator[Found]:
    if analysis.notebook.unread:  # the procedure that names it may be among what could not be read
        return
    for skill, place in analysis.index.of(Skill):
        if skill.covers or "covers" in skill.asked:
            continue
        named = any(
            link.key == "skill" and not isinstance(link.place.owner, Record)
            for link in analysis.references.used_in("skill", place.owner_id)
        )
        if not named:
            yield Found(
                skill.at, f"“{skill.title}” is good for nothing: it covers no procedure, and none names it.",
                "Add `covers:` with the procedures that one can do who has it, or take the file away.",
                place.owner_id,
            )


SKILL_UNCOVERING = Rule(
    "skill-uncovering", Level.WARNING, "A skill that covers nothing and that nothing asks for.",
    "A skill is learned in order to do some work alone. Without the work nobody can tell when it is needed, or "
    "who would be missed.",
    """\
=== procedures/foot/file-foot.yml
procedure: file-foot
title: File the foot
✓ skill: filing
steps: File along the parting line.
=== skills/filing.yml
▸skill: filing
title: Filing
""", skill_uncovering,
)


def nobody_holds(analysis: Analysis) -> Iterator[Found]:
    if not signed(analysis):
        return
    for skill, place in analysis.index.of(Skill):
        if analysis.holders.able(place.owner_id):
            continue
        known = analysis.holders.of_skill(place.owner_id)
        nearest = f" {name_of(analysis, known[0].person)} comes nearest: `{known[0].level}`." if known else ""
        yield Found(
            skill.at, f"Nobody in the shop can do “{skill.title}” alone.{nearest}",
            "Let somebody entitled sign for whoever can, or find who still knows it and write it down now.",
            place.owner_id,
        )


NOBODY_HOLDS = Rule(
    "nobody-holds", Level.WARNING, "A skill that nobody in the shop holds alone.",
    "What nobody can do any more is half lost. Somebody who has left may still be asked.",
    """\
=== skills/filing.yml
▸skill: filing
title: Filing
=== skills/people.yml
people: {edda: {name: Edda, founding: yes}, josk: Josk}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
✓ level: alone
✗ level: within call
""", nobody_holds,
)


def one_holds(analysis: Analysis) -> Iterator[Found]:
    if not signed(analysis):
        return
    for skill, place in analysis.index.of(Skill):
        able = analysis.holders.able(place.owner_id)
        if len(able) == 1:
            learning = [held for held in analysis.holders.of_skill(place.owner_id) if held.person != able[0]]
            next_one = f" {name_of(analysis, learning[0].person)} is `{learning[0].level}`." if learning else ""
            only = name_of(analysis, able[0])
            yield Found(
                skill.at, f"If {only} left tomorrow, nobody could do “{skill.title}” alone.{next_one}",
                "Choose who learns it next, while there is somebody to learn it from.", place.owner_id,
            )


ONE_HOLDS = Rule(
    "one-holds", Level.WARNING, "A skill that only one person in the shop holds alone.",
    "A broken arm is enough to stop the work, and a funeral to lose it.",
    """\
=== skills/filing.yml
▸skill: filing
title: Filing
=== skills/people.yml
people: {edda: {name: Edda, founding: yes}, josk: Josk, tilde: Tilde}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: alone
---
sign-off: 2
who: edda
date: 2026-08-03
learner: tilde
skill: filing
✓ level: alone
✗ level: beside
""", one_holds,
)


def teacher_none(analysis: Analysis) -> Iterator[Found]:
    if not signed(analysis):
        return
    for skill, place in analysis.index.of(Skill):
        if analysis.holders.able(place.owner_id) and not analysis.holders.teachers(place.owner_id):
            yield Found(
                skill.at, f"“{skill.title}” is still done here, but nobody left is signed to teach it.",
                "Sign who can teach it, while somebody entitled to sign is here.", place.owner_id,
            )


TEACHER_NONE = Rule(
    "teacher-none", Level.WARNING, "A skill that nobody in the shop teaches.",
    "Only who teaches a skill may sign for it. Where no teacher is left, it ends with those who hold it now.",
    """\
=== skills/filing.yml
▸skill: filing
title: Filing
=== skills/people.yml
✓ people: {edda: {name: Edda, founding: yes}, josk: Josk}
✗ people: {edda: {name: Edda, left: 2026-07, founding: yes}, josk: Josk}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
✓ level: teaches
✗ level: alone
""", teacher_none,
)
