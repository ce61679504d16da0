"""Rules on who may do a work by age and papers."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from datetime import timedelta

from site_builder.analysis.analysis import Analysis
from site_builder.checks.papers import papers_of
from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.able import name_of, title_of
from site_builder.checks.rules.records.lawful import breaches
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.harm import Hands
from site_builder.notebook.model.parsed_values import ID, id_from
from site_builder.notebook.nearest import did_you_mean, nearest
from site_builder.notebook.vocabulary import Titled
from site_builder.skills.breach import Article
from site_builder.skills.papers import BESIDE, papers_asked

_MAYBE_A_PERSON = ("person?",)
"""What the references call a key that holds a person, a role or free words."""


def who_unknown(analysis: Analysis) -> Iterator[Found]:
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


WHO_UNKNOWN = Rule(
    "who-unknown", Level.ERROR, "A person is named whom nobody knows.",
    "In ten years a name with a slip in it leads to nobody, and there is nobody left to ask who was meant.",
    """\
=== procedures/foot/prime-foot.yml
procedure: prime-foot
title: Prime the foot
steps: Spray it.
revisions:
✓   - {date: 2009-05, who: tilde, what: First along and then across.}
✗   - {date: 2009-05, who: ▸tidle, what: First along and then across.}
=== skills/people.yml
people: {tilde: Tilde}
""", who_unknown,
)


def too_young(analysis: Analysis) -> Iterator[Found]:
    learners = {entry.number: str(entry.learner) for entry in analysis.notebook.sign_offs}
    for breach in breaches(analysis, Article.AGE):
        yield Found(
            breach.at, breach.message,
            f"Withdraw this entry with a new one, or put the date of birth right. {breach.fix}",
            learners[breach.number],
        )


TOO_YOUNG = Rule(
    "too-young", Level.ERROR,
    "Somebody holds a skill, and so works with a tool or a material, before the age that is written for it.",
    "The age stands there because somebody was hurt, or because the law says so. A sign-off does not make "
    "anybody older.",
    """\
=== skills/grinding-flat.yml
skill: grinding-flat
title: Grinding flat
age: min 16 y
=== skills/people.yml
people:
  edda: {name: Edda, born: 1958}
✓   ansa: {name: Ansa, born: 2010-06-19}
✗   ansa: {name: Ansa, born: 2010-06-20}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2026-06-19
learner: ▸ansa
skill: grinding-flat
level: beside
""", too_young,
)


def paper_lapsed(analysis: Analysis) -> Iterator[Found]:
    for paper in papers_of(analysis):
        if paper.skills and paper.last < analysis.today:
            rests = ", ".join(f"“{skill}”" for skill in paper.skills)
            yield Found(
                paper.at,
                f"“{paper.paper}” of {paper.name} was good until {paper.last.isoformat()}. "
                f"Until it is renewed, this rests: {rests}.",
                "Renew it, and add a line with the new date under `papers`.", paper.person,
            )


PAPER_LAPSED = Rule(
    "paper-lapsed", Level.ERROR, "A licence or certificate that a skill asks for is no longer valid.",
    "Without the paper the skill rests: a mask that was last tried on two years ago may let the vapour past.",
    """\
=== skills/spraying.yml
skill: spraying
title: Spraying
papers: {paper: Mask fit test, valid: 12 mo}
=== skills/people.yml
people:
  edda: {name: Edda, founding: yes}
  tilde:
    name: Tilde
✓     papers: {paper: Mask fit test, date: 2025-11-24}
✗     papers: {paper: Mask fit test, date: ▸2025-11-23}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2024-03-01
learner: tilde
skill: spraying
level: alone
""", paper_lapsed,
)


AHEAD = timedelta(days=60)
"""How long before the day one is told: time enough for a date at the doctor's (common practice)."""


def paper_lapsing(analysis: Analysis) -> Iterator[Found]:
    for paper in papers_of(analysis):
        gone = paper.last < analysis.today
        if paper.last - analysis.today > AHEAD or (gone and paper.skills):  # of these `paper-lapsed` speaks
            continue
        until = "was good until" if gone else "is good until"
        rests = ", ".join(f"“{skill}”" for skill in paper.skills)
        then = f" After that this rests: {rests}." if rests else ""
        yield Found(
            paper.at, f"“{paper.paper}” of {paper.name} {until} {paper.last.isoformat()}.{then}",
            "Have it renewed, and add a line with the new date under `papers`.", paper.person,
        )


PAPER_LAPSING = Rule(
    "paper-lapsing", Level.WARNING, "A licence or certificate that ends within 60 days, or has ended.",
    "The office, the doctor or the course has no date free in the week in which one needs it.",
    """\
=== skills/people.yml
people:
  josk:
    name: Josk
✓     papers: {paper: First aid, valid: 24 mo, date: 2025-10-06}
✗     papers: {paper: First aid, valid: 24 mo, date: ▸2025-01-10}
""", paper_lapsing,
)


def paper_unsaid(analysis: Analysis) -> Iterator[Found]:
    for id_, person in analysis.notebook.living.items():
        if "papers" in person.asked:
            continue
        untold: dict[str, list[str]] = {}
        for held in analysis.holders.of_person(id_) if analysis.notebook.skills else ():
            for one in papers_asked(analysis.notebook, id_, held.skill, analysis.today) if held.rank >= BESIDE else ():
                if one.untold:
                    untold.setdefault(str(one.paper.paper), []).append(title_of(analysis, held.skill))
        for paper, skills in untold.items():
            asking = ", ".join(f"“{skill}”" for skill in skills)
            yield Found(
                person.at,
                f"Does {name_of(analysis, id_)} hold “{paper}”, and since when? It is asked for by {asking}.",
                f"Add it under `papers`: `{{paper: {paper}, date: …}}`; where it is not there, nothing of this is done "
                "until it is.",
                id_,
            )


PAPER_UNSAID = Rule(
    "paper-unsaid", Level.QUESTION,
    "A licence or certificate that a skill asks for, and that is not written with who holds the skill.",
    "A paper that nobody has written down may hang on the wall, or may never have been there. It is asked for "
    "before somebody is hurt, and not after.",
    """\
=== skills/spraying.yml
skill: spraying
title: Spraying
papers: {paper: Mask fit test, valid: 12 mo}
=== skills/people.yml
people:
  edda: {name: Edda, founding: yes}
  tilde:
    ▸name: Tilde
✓     papers: {paper: Mask fit test, date: 2026-03-10}
✗     papers: {paper: First aid, date: 2026-03-10}
=== skills/records/sign-offs.yml
---
sign-off: 1
who: edda
date: 2024-03-01
learner: tilde
skill: spraying
level: alone
""", paper_unsaid,
)
