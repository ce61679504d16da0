from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.limits import cell_place, is_guide, is_judged, limits_of, told_in
from site_builder.checks.rules.values.sides import is_plain
from site_builder.checks.rules.values.wording import thing
from site_builder.notebook.finding import Found, Level
from site_builder.quantity import as_said, kind_of

_BOUND = ("limits", "sizes", "settings", "conditions")
# A count is exact, and the parts of a mix are weighed as they are told.
_EXACT = ("count", "part", "part by weight", "part by volume")


def check(analysis: Analysis) -> Iterator[Found]:
    for limit, place in limits_of(analysis):
        if place.key not in _BOUND or is_judged(limit) or is_guide(limit):
            continue
        plain = [
            (cell, written) for cell, written in told_in(limit)
            if is_plain(written) and kind_of(written.value) not in _EXACT
        ]
        if plain:  # a table is asked about once
            cell, written = plain[0]
            about = thing(cell_place(analysis, cell, place)) if len(plain) == 1 else thing(place)
            yield Found(
                written.at, f"How far off may {about} be? It says only {as_said(written.value)}.",
                "Write it with `±`, as a range, or with `min` and `max`.", place.owner_id,
            )


RULE = Rule(
    code="no-limits",
    level=Level.QUESTION,
    summary="A figure that does not say how far off it may be.",
    reason=(
        "Nothing is ever exactly 32 mm. Whoever does not know how far off it may be either takes endless "
        "pains or none."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits: {height of the foot: 32 +0.3/0 mm}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps: Sweep it along the belt.
limits: {height of the foot: ▸32 mm}
""",
    check=check,
)
