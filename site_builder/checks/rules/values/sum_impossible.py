from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.sums import ends, shown, sums
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for _, written, place, whole, parts in sums(analysis):
        low, high = ends(parts)
        if whole.high is not None and low is not None and low > whole.high:
            told = f"The parts come to {shown(whole, low)} at least, which is over `{written}`."
        elif whole.low is not None and high is not None and high < whole.low:
            told = f"The parts come to {shown(whole, high)} at most, which is under `{written}`."
        else:
            continue
        yield Found(written.at, told, "Put right the limits of the parts, or the limit of their sum.", place.owner_id)


RULE = Rule(
    code="sum-impossible",
    level=Level.ERROR,
    summary="A limit on a sum that its parts cannot keep.",
    reason=(
        "Even when every part is at its best the sum is refused, or a sum that must be reached never is."
    ),
    passes="""\
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
steps:
  - id: prime
    do: Spray the primer.
    limits: {primer: 15..25 µm}
  - id: paint
    do: Spray the enamel.
    limits: {enamel: 25..35 µm}
limits:
  whole film: {is: 40..60 µm, sum: [prime/primer, paint/enamel]}
""",
    fails="""\
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
steps:
  - id: prime
    do: Spray the primer.
    limits: {primer: 15..25 µm}
  - id: paint
    do: Spray the enamel.
    limits: {enamel: 25..35 µm}
limits:
  whole film: {is: ▸max 35 µm, sum: [prime/primer, paint/enamel]}
""",
    check=check,
)
