from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.harm import Hands
from site_builder.notebook.nearest import did_you_mean, nearest


def check(analysis: Analysis) -> Iterator[Found]:
    for hands, place in analysis.index.of(Hands):
        if hands.leads is not None and hands.leads not in hands.roles:
            near = did_you_mean(nearest(hands.leads, hands.roles))
            roles = " or ".join(f"`{role}`" for role in hands.roles)
            yield Found(
                hands.leads.at, f"`{hands.leads}` leads, but no such role stands here.",
                f"{near}Write {roles}." if roles else "Add `roles:` with what each of them does.", place.owner_id,
            )


RULE = Rule(
    code="leads-unknown",
    level=Level.ERROR,
    summary="The one who leads is none of the roles.",
    reason="When two work together one gives the word. If the page names somebody who is not there, both "
    "wait, or both begin.",
    passes="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
hands:
  count: 2
  roles:
    pourer: Holds the ladle.
    tilter: Brings the mould upright.
  leads: pourer
  missing: {then: stop}
steps: Pour it.
""",
    fails="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
hands:
  count: 2
  roles:
    pourer: Holds the ladle.
    tilter: Brings the mould upright.
  leads: ▸caster
  missing: {then: stop}
steps: Pour it.
""",
    check=check,
)
