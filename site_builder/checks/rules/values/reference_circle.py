from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.held import reckoning
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.names import NamedValue
from site_builder.notebook.reckoning import Naming


def check(analysis: Analysis) -> Iterator[Found]:
    held = reckoning(analysis)
    for naming in held.namings:
        held.widest(naming.hits)
    told: set[frozenset[int]] = set()
    for circle in held.circles:
        ring = frozenset(map(id, circle))
        around = sorted((one for one in held.namings if _leads_round(one, circle)), key=lambda one: one.at)
        if ring in told or not around:
            continue
        told.add(ring)
        naming = around[0]
        names = " → ".join(f"`{named.name}`" for named in (*circle, circle[0]))
        yield Found(
            naming.at, f"These lean on one another in a ring: {names}.", "Write one of them as a figure.",
            naming.place.owner_id,
        )


def _leads_round(naming: Naming, circle: tuple[NamedValue, ...]) -> bool:
    """Whether this name stands in one value of the ring and leads to another."""
    limits = {id(limit) for named in circle for limit in named.limits}
    plain = {id(named.written) for named in circle if named.written is not None}
    within = id(naming.within) in plain or any(id(outer.entry) in limits for outer in naming.place.up())
    return within and any(hit is named for hit in naming.hits for named in circle)


RULE = Rule(
    code="reference-circle",
    level=Level.ERROR,
    summary="Values that lean on one another in a ring.",
    reason=(
        "If the wall is half the depth and the depth is twice the wall, nobody has said how thick "
        "anything is."
    ),
    passes="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps:
  - do: Press the filler in.
    limits: {depth of the pit: max 2 x wall}
    settings: {wall: 4 ±0.4 mm}
""",
    fails="""\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps:
  - do: Press the filler in.
    limits: {depth of the pit: max 2 x ▸wall}
    settings: {wall: 'max 1/2 of [depth of the pit]'}
""",
    check=check,
)
