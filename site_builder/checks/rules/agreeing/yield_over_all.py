from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.sums import ends
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.small import Yield


def check(analysis: Analysis) -> Iterator[Found]:
    held = reckoning(analysis)
    for lost, place in analysis.index.of(Yield):
        if lost.scrap is None or lost.rework is None:
            continue
        least = [ends(found)[0] for one in (lost.scrap, lost.rework)
                 if (found := held.bounds(one)) is not None and found.kind == "ratio"]
        told = [one for one in least if one is not None]
        # More than the whole each on its own is told elsewhere.
        if len(told) == 2 and max(told) <= 1 < sum(told, Fraction(0)):
            yield Found(
                lost.rework.at, f"`{lost.scrap}` lost and `{lost.rework}` done again are more than all the pieces.",
                "Write both as shares of all pieces begun; a piece done again and lost all the same counts as lost.",
                place.owner_id,
            )


RULE = Rule(
    code="yield-over-all",
    level=Level.WARNING,
    summary="Pieces lost and pieces done again are more than all there are.",
    reason="A batch is reckoned from both shares; together they cannot pass a hundred in a hundred.",
    passes="""\
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
steps: File along the line.
yield: {scrap: 6 %, rework: 50 %}
""",
    fails="""\
=== procedures/arm/file-arm.yml
procedure: file-arm
title: File the arm
steps: File along the line.
yield: {scrap: 60 %, rework: ▸50 %}
""",
    check=check,
)
