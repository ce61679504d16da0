from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.ages import procedures_of
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.kinds import kind_of
from site_builder.notebook.model.harm import Hazard
from site_builder.notebook.model.people import Skill
from site_builder.notebook.model.things import Thing


def check(analysis: Analysis) -> Iterator[Found]:
    dangers = _dangers(analysis)
    for skill, place in analysis.index.of(Skill):
        if skill.age or "age" in skill.asked:
            continue
        meets = (place.owner_id, *procedures_of(analysis, skill))
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


RULE = Rule(
    code="age-unsaid",
    level=Level.QUESTION,
    summary="A skill that meets a danger and does not say from which age.",
    reason="Many places forbid the young to work with what can kill. Whoever plans the learner's year "
    "must find the line on the page.",
    passes="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
skill: casting
hazards:
  - {hazard: molten metal, word: danger, harm: It burns to the bone., avoid: Nothing damp near it.}
steps: Pour it.
=== procedures/foot/turn-foot.yml
procedure: turn-foot
title: Turn the foot
skill: turning
hazards:
  - {hazard: thrown foot, word: danger, harm: It kills., avoid: Chuck it tight., age: min 18 y}
steps: Turn it.
=== skills/casting.yml
skill: casting
title: Casting
age: min 18 y
=== skills/turning.yml
skill: turning
title: Turning
""",
    fails="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
skill: casting
hazards:
  - {hazard: molten metal, word: danger, harm: It burns to the bone., avoid: Nothing damp near it.}
steps: Pour it.
=== skills/casting.yml
▸skill: casting
title: Casting
""",
    check=check,
)
