"""Questions about people and skills."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.untold import asks_for
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.kinds import kind_of
from site_builder.notebook.model.harm import Hazard
from site_builder.notebook.model.people import Skill
from site_builder.notebook.model.things import Thing
from site_builder.skills.ages import procedures_of
from site_builder.skills.ledger import LEVELS

CHECKLIST_NONE = Rule(
    "checklist-none", Level.QUESTION, "A skill without a checklist.",
    "The list is what the learner is shown, tries and is signed for, one thing after the other. Without it each "
    "teacher signs for something else.",
    """\
=== skills/filing.yml
▸skill: filing
title: Filing
✓ checklist: Files along the parting line without a flat.
""",
    asks_for(
        "checklist", "What does one show, one thing after the other, before {} is signed?",
        "Add `checklist:` with a line for each thing that is shown.",
    ),
)


def item_nameless(analysis: Analysis) -> Iterator[Found]:
    signed = {str(entry.skill) for entry in analysis.notebook.sign_offs if entry.skill is not None}
    for skill, place in analysis.index.of(Skill):
        nameless = [show for show in skill.checklist if show.id is None]
        if nameless and place.owner_id in signed:
            others = f" {len(nameless) - 1} more have none either." if len(nameless) > 1 else ""
            yield Found(
                nameless[0].at,
                f"What is “{nameless[0].show}” called when it is signed on the checklist of “{skill.title}”?{others}",
                "Give the item an `id`, one short word: `{id: card, show: Cards a file.}`.", place.owner_id,
            )


ITEM_NAMELESS = Rule(
    "item-nameless", Level.QUESTION, "An item of a checklist has no id, so it cannot be signed.",
    "The items are signed one by one, and each entry of the book names them by their ids.",
    """\
=== skills/filing.yml
skill: filing
title: Filing
✓ checklist: [{id: card, show: Cards a file.}]
✗ checklist: [▸Cards a file., {id: along, show: Files without a flat.}]
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: josk
skill: filing
level: beside
""", item_nameless,
)


SKILL_UNPROVED = Rule(
    "skill-unproved", Level.QUESTION, "A skill without proof.",
    "“He can do it” is an opinion. So many pieces, of which so many must be good, is something the learner can "
    "work towards and nobody can quarrel with.",
    """\
=== skills/filing.yml
▸skill: filing
title: Filing
✓ proof: {pieces: 30, share: min 90 %}
""",
    asks_for(
        "proof",
        "What must stand in the records before somebody does {} alone: how many pieces, how many good?",
        "Add `proof:` with `pieces` and `share`.",
    ),
)


REFRESH_UNSAID = Rule(
    "refresh-unsaid", Level.QUESTION, "A skill that never goes stale.",
    "A hand forgets. Who has not done the work for a year should do it once beside somebody before doing it "
    "alone again.",
    """\
=== skills/filing.yml
▸skill: filing
title: Filing
✓ refresh: 24 mo
""",
    asks_for(
        "refresh", "After how long without practice must somebody be looked at again at {}?",
        "Add `refresh:` with the time, as `12 mo`.",
    ),
)


def age_unsaid(analysis: Analysis) -> Iterator[Found]:
    dangers = _dangers(analysis)
    for skill, place in analysis.index.of(Skill):
        if skill.age or "age" in skill.asked:
            continue
        meets = (place.owner_id, *procedures_of(analysis.references, skill))
        met = next((dangers[one] for one in meets if one in dangers), None)
        if met is not None:
            yield Found(
                skill.at, f"From which age may one learn “{skill.title}”? It meets a danger: {met}.",
                "Add `age:`, as `min 18 y`; where the law draws the line higher, the law goes first.",
                place.owner_id,
            )


def _dangers(analysis: Analysis) -> dict[str, str]:
    """Of each skill and procedure a danger it meets; a danger with an age, or of a thing with one, is left out."""
    found: dict[str, str] = {}
    for hazard, place in analysis.index.of(Hazard):
        if hazard.word != "danger" or hazard.age:
            continue
        if not isinstance(place.owner, Thing):
            found.setdefault(place.owner_id, str(hazard.hazard))
        elif not place.owner.age:
            for link in analysis.references.used_in(kind_of(place.owner), place.owner_id):
                if link.place.procedure is not None:
                    found.setdefault(link.place.owner_id, str(hazard.hazard))
    return found


AGE_UNSAID = Rule(
    "age-unsaid", Level.QUESTION, "A skill that meets a danger and does not say from which age.",
    "Many places forbid the young to work with what can kill. Whoever plans the learner's year must find the "
    "line on the page.",
    """\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
skill: casting
hazards:
  - {hazard: molten metal, word: danger, harm: It burns to the bone., avoid: Nothing damp near it.}
steps: Pour it.
✓ === procedures/foot/turn-foot.yml
✓ procedure: turn-foot
✓ title: Turn the foot
✓ skill: turning
✓ hazards:
✓   - {hazard: thrown foot, word: danger, harm: It kills., avoid: Chuck it tight., age: min 18 y}
✓ steps: Turn it.
=== skills/casting.yml
▸skill: casting
title: Casting
✓ age: min 18 y
✓ === skills/turning.yml
✓ skill: turning
✓ title: Turning
""", age_unsaid,
)


def born_unsaid(analysis: Analysis) -> Iterator[Found]:
    ages = analysis.law.ages
    asked = (ages.of_skill(skill, level) for skill in analysis.notebook.skills for level in LEVELS[1:])
    first = next((age for age in asked if age is not None), None)
    if first is None:
        return
    for id_, person in analysis.notebook.living.items():
        if person.born is None and "born" not in person.asked:
            yield Found(
                person.at, f"When was {person.name} born? {first.of} asks for {first.written}.",
                "Add `born:` with the day, as `2011-06-19`; a bare year counts from its last day.", id_,
            )


BORN_UNSAID = Rule(
    "born-unsaid", Level.QUESTION, "A person whose birth is not written, in a shop that asks for an age.",
    "Whose age is not known is never old enough: nothing that asks for an age can be signed for them.",
    """\
=== skills/casting.yml
skill: casting
title: Casting
age: min 18 y
=== skills/people.yml
people:
✓   ansa: {name: Ansa, born: 2011-06-19}
✗   ansa: ▸{name: Ansa}
""", born_unsaid,
)
