from __future__ import annotations

from collections.abc import Iterator, Sequence

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.able import able_at, done_elsewhere, signed, skills_at, title_of
from site_builder.checks.rules.people.hands_count import least_hands
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.harm import Hands


def check(analysis: Analysis) -> Iterator[Found]:
    living = frozenset(analysis.notebook.living)
    if not living or analysis.notebook.unread:
        return
    known = signed(analysis)
    for hands, place in analysis.index.of(Hands):
        wanted = least_hands(hands)
        if wanted < 2 or done_elsewhere(place):
            continue
        there, who = len(living), ""
        if wanted <= there and known:
            there, who = _able(analysis, hands, place, wanted)
        if wanted > there:
            yield Found(
                hands.at if hands.count is None else hands.count.at,
                f"This needs {wanted} people at once, but the shop has {f'only {there}' if there else 'nobody'}{who}.",
                "Let another learn it, or find a way to do it with fewer hands.", place.owner_id,
            )


def _able(analysis: Analysis, hands: Hands, place: Place, wanted: int) -> tuple[int, str]:
    """How many can stand there at once, somebody who learns it beside a teacher included."""
    if not hands.roles:
        skills = " or ".join(f"“{title_of(analysis, skill)}”" for skill in skills_at(place))
        return len(able_at(analysis, place, "beside")), f" signed for {skills}, learners included"
    everybody = tuple(analysis.notebook.living)
    choices = [
        everybody if role.skill is None else analysis.holders.able(str(role.skill), "beside")
        for role in hands.roles.values()
    ]
    choices += [everybody] * (wanted - len(choices))
    return _filled(choices), " for its roles, learners included"


def _filled(choices: Sequence[Sequence[str]]) -> int:
    """How many places can be filled when each takes one of its own people and nobody stands at two."""
    place_of: dict[str, int] = {}

    def fill(place: int, tried: set[str]) -> bool:
        for person in choices[place]:
            if person not in tried:
                tried.add(person)
                if person not in place_of or fill(place_of[person], tried):
                    place_of[person] = place
                    return True
        return False

    return sum(fill(place, set()) for place in range(len(choices)))


RULE = Rule(
    code="hands-short",
    level=Level.ERROR,
    summary="Work that needs more hands than there are people who can do it.",
    reason="It cannot be done as it is written. Either it is done by fewer, and the page is wrong, or by "
    "somebody who was never taught.",
    passes="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
hands: {count: 2, missing: {do: Do not pour., then: stop}}
steps: Pour it.
=== skills/people.yml
people: {edda: Edda, josk: Josk}
""",
    fails="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
hands: {count: ▸3, missing: {do: Do not pour., then: stop}}
steps: Pour it.
=== skills/people.yml
people: {edda: Edda, josk: Josk}
""",
    check=check,
)
