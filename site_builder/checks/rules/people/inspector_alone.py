from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.people.able import able_at, done_elsewhere, name_of, signed, skills_at
from site_builder.notebook.finding import At, Found, Level
from site_builder.notebook.model.judging import Check


def check(analysis: Analysis) -> Iterator[Found]:
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


RULE = Rule(
    code="inspector-alone",
    level=Level.ERROR,
    summary="Another than the maker is to look, and there is no other who can do the work.",
    reason="Nobody sees the faults that his own hands make. A second look by the same person is written "
    "in the book and never happens.",
    passes="""\
=== procedures/foot/prime-foot.yml
procedure: prime-foot
title: Prime the foot
checks: {good: No run and no bare edge., who: another}
steps: Spray it.
=== skills/people.yml
people: {edda: Edda, tilde: Tilde}
""",
    fails="""\
=== procedures/foot/prime-foot.yml
procedure: prime-foot
title: Prime the foot
checks: {good: No run and no bare edge., who: ▸another}
steps: Spray it.
=== skills/people.yml
people: {edda: Edda, havel: {name: Havel, left: 1994}}
""",
    check=check,
)
