from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.harm import Hands
from site_builder.notebook.model.parsed_values import ID, id_from
from site_builder.notebook.nearest import did_you_mean, nearest
from site_builder.notebook.vocabulary import Titled

_MAYBE_A_PERSON = ("person?",)
"""What the references call a key that holds a person, a role or free words."""


def check(analysis: Analysis) -> Iterator[Found]:
    people = analysis.notebook.people
    if not people or "people" in analysis.notebook.unread:
        return
    of_people = {word for person in people.values() for word in (person.role or "").lower().split()}
    called = Titled({id_: str(person.name) for id_, person in people.items()})
    of_hands: dict[str, set[str]] = defaultdict(set)
    for hands, place in analysis.index.of(Hands):
        of_hands[place.owner_id].update(map(str, hands.roles))
    for link in analysis.references.links:
        if link.kinds != _MAYBE_A_PERSON or link.target is not None:
            continue
        roles = of_hands.get(link.place.owner_id, set())
        if link.text != "another" and link.text not in roles and link.text not in of_people and not _outside(link.text):
            near, role = called.nearest(link.text), nearest(link.text, sorted(roles))
            near = (nearest(link.text, (role, near)) or role) if role else near
            if near or ID.match(link.text):  # several words that are nobody's name tell of somebody outside
                outside = id_from(link.text).replace("-", " ") or "smith"
                yield Found(
                    link.at, f"`{link.text}` is nobody of the shop and no role.",
                    f"{did_you_mean(near)}Somebody outside the shop is told in words: `the {outside}`.",
                    link.place.owner_id,
                )


def _outside(text: str) -> bool:
    """Whether the words tell of somebody by what he is: `the master`, `a second pair of hands`."""
    return text.split()[:1] in (["the"], ["a"], ["an"], ["whoever"], ["another"], ["any"], ["anybody"], ["somebody"])


RULE = Rule(
    code="who-unknown",
    level=Level.ERROR,
    summary="A person is named whom nobody knows.",
    reason="In ten years a name with a slip in it leads to nobody, and there is nobody left to ask who "
    "was meant.",
    passes="""\
=== procedures/foot/prime-foot.yml
procedure: prime-foot
title: Prime the foot
steps: Spray it.
revisions:
  - {date: 2009-05, who: tilde, what: First along and then across.}
=== skills/people.yml
people: {tilde: Tilde}
""",
    fails="""\
=== procedures/foot/prime-foot.yml
procedure: prime-foot
title: Prime the foot
steps: Spray it.
revisions:
  - {date: 2009-05, who: ▸tidle, what: First along and then across.}
=== skills/people.yml
people: {tilde: Tilde}
""",
    check=check,
)
