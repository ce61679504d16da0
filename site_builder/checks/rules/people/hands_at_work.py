"""Rules on the hands that a step needs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.able import able_at, done_elsewhere, name_of, signed, skills_at, title_of
from site_builder.checks.rules.people.hands_count import least_hands
from site_builder.notebook.finding import At, Found, Level
from site_builder.notebook.gather import skills_of
from site_builder.notebook.index import Place
from site_builder.notebook.model.harm import Hands
from site_builder.notebook.model.judging import Check
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.nearest import did_you_mean, nearest


def hands_short(analysis: Analysis) -> Iterator[Found]:
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


HANDS_SHORT = Rule(
    "hands-short", Level.ERROR, "Work that needs more hands than there are people who can do it.",
    "It cannot be done as it is written. Either it is done by fewer, and the page is wrong, or by somebody who "
    "was never taught.",
    """\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
✓ hands: {count: 2, missing: {do: Do not pour., then: stop}}
✗ hands: {count: ▸3, missing: {do: Do not pour., then: stop}}
steps: Pour it.
=== skills/people.yml
people: {edda: Edda, josk: Josk}
""", hands_short,
)


def leads_unknown(analysis: Analysis) -> Iterator[Found]:
    for hands, place in analysis.index.of(Hands):
        if hands.leads is not None and hands.leads not in hands.roles:
            near = did_you_mean(nearest(hands.leads, hands.roles))
            roles = " or ".join(f"`{role}`" for role in hands.roles)
            yield Found(
                hands.leads.at, f"`{hands.leads}` leads, but no such role stands here.",
                f"{near}Write {roles}." if roles else "Add `roles:` with what each of them does.", place.owner_id,
            )


LEADS_UNKNOWN = Rule(
    "leads-unknown", Level.ERROR, "The one who leads is none of the roles.",
    "When two work together one gives the word. If the page names somebody who is not there, both wait, or both "
    "begin.",
    """\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
hands:
  count: 2
  roles:
    pourer: Holds the ladle.
    tilter: Brings the mould upright.
✓   leads: pourer
✗   leads: ▸caster
  missing: {then: stop}
steps: Pour it.
""", leads_unknown,
)


def inspector_alone(analysis: Analysis) -> Iterator[Found]:
    known = signed(analysis)
    first: dict[tuple[str, str], At] = {}  # once a procedure: it is one fault, however often it is looked
    for look, place in analysis.index.under(Check):
        if look.who != "another" or not (known or not skills_at(place)) or analysis.notebook.unread:
            continue
        able = able_at(analysis, place)
        if len(able) == 1 and not done_elsewhere(place):
            (only,) = able
            key = (place.owner_id, only)
            first[key] = min(look.who.at, first.get(key, look.who.at))
    for (owner, only), at in first.items():
        yield Found(
            at, f"Another than the maker is to look, but only {name_of(analysis, only)} can do this work.",
            "Let a second person be signed for it, or name in `who` somebody else who can judge it.", owner,
        )


INSPECTOR_ALONE = Rule(
    "inspector-alone", Level.ERROR, "Another than the maker is to look, and there is no other who can do the work.",
    "Nobody sees the faults that his own hands make. A second look by the same person is written in the book and "
    "never happens.",
    """\
=== procedures/foot/prime-foot.yml
procedure: prime-foot
title: Prime the foot
checks: {good: No run and no bare edge., who: ▸another}
steps: Spray it.
=== skills/people.yml
✓ people: {edda: Edda, tilde: Tilde}
✗ people: {edda: Edda, havel: {name: Havel, left: 1994}}
""", inspector_alone,
)


def procedure_skillless(analysis: Analysis) -> Iterator[Found]:
    notebook = analysis.notebook
    if notebook.unread:  # the skill that covers it may be among what could not be read
        return
    covered = {str(one) for skill in notebook.skills.values() for one in skill.covers}
    skilled = {id_ for id_, own in notebook.procedures.items() if id_ in covered or skills_of(own)}
    for procedure, place in analysis.index.of(Procedure):
        id_ = place.owner_id
        if id_ in skilled or procedure.where is not None or "skill" in procedure.asked:
            continue
        links = analysis.references.used_in("procedure", id_)
        users = {link.place.owner_id for link in links if link.key == "use"}
        if not users or not users <= skilled:
            yield Found(
                procedure.at, f"Who may do this alone: “{procedure.title}”?",
                "Add `skill:` with the skill one must hold for it.", id_,
            )


PROCEDURE_SKILLLESS = Rule(
    "procedure-skillless", Level.QUESTION, "A procedure that names no skill.",
    "Only where the skill is written can the notebook say who can do this work, who may learn it next, and what "
    "would be lost if somebody left.",
    """\
=== procedures/foot/file-foot.yml
▸procedure: file-foot
title: File the foot
✓ skill: filing
steps: File along the parting line.
✓ === skills/filing.yml
✓ skill: filing
✓ title: Filing
""", procedure_skillless,
)


def hands_missing(analysis: Analysis) -> Iterator[Found]:
    for hands, place in analysis.index.of(Hands):
        wanted = least_hands(hands)
        if wanted > 1 and not hands.missing and "missing" not in hands.asked:
            yield Found(
                hands.at, f"This takes {wanted} at once. What is done when one of them is not there?",
                "Add `missing:` with what to do instead, as `{do: Do not pour., then: stop}`.",
                place.owner_id,
            )


HANDS_MISSING = Rule(
    "hands-missing", Level.QUESTION, "Several hands, and no word on what to do when one is not there.",
    "On that day somebody tries it alone. Better that the page has said beforehand whether one may.",
    """\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
steps:
  - do: Pour it.
✓     hands:
✓       count: 2
✓       missing: {do: Do not pour., then: stop}
✗     hands: ▸2
""", hands_missing,
)
