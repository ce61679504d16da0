from __future__ import annotations

from collections.abc import Iterator, Mapping

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.people import Skill
from site_builder.notebook.model.small import Need


def check(analysis: Analysis) -> Iterator[Found]:
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


RULE = Rule(
    code="needs-circle",
    level=Level.ERROR,
    summary="Skills that need each other in a circle.",
    reason="If the one must be held before the other and the other before the one, no newcomer can ever "
    "hold either.",
    passes="""\
=== skills/alloy-keeping.yml
skill: alloy-keeping
title: Keeping the alloy
=== skills/casting.yml
skill: casting
title: Casting
needs: alloy-keeping
""",
    fails="""\
=== skills/alloy-keeping.yml
skill: alloy-keeping
title: Keeping the alloy
needs:
  - skill: ▸casting
    level: beside
=== skills/casting.yml
skill: casting
title: Casting
needs: alloy-keeping
""",
    check=check,
)
