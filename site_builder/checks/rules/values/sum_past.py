from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.sums import ends, shown, sums
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    held = reckoning(analysis)
    for limit, written, place, whole, parts in sums(analysis):
        # With variants or rows among the parts their widest span says too much.
        if limit.note or any(held.varies(hits) for _, _, hits in held.parts(limit)):
            continue
        low, high = ends(parts)
        if low is None or high is None or (whole.high is not None and low > whole.high):
            continue
        past = []
        if whole.low is not None and low < whole.low <= high:
            past.append(f"{shown(whole, low)} at least")
        if whole.high is not None and high > whole.high:
            past.append(f"{shown(whole, high)} at most")
        if past:
            yield Found(
                written.at, f"The parts within their own limits come to {' and '.join(past)}; wanted is `{written}`.",
                "Make the limits of a part narrower, widen that of the sum, or say in `note` how they are matched.",
                place.owner_id,
            )


RULE = Rule(
    code="sum-past",
    level=Level.WARNING,
    summary="Parts, each within its limits, whose sum may still be refused.",
    reason=(
        "Every piece passes every check on the way, and the last one condemns it. Somebody is left to "
        "make them meet."
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
  whole film: {is: ▸45..60 µm, sum: [prime/primer, paint/enamel]}
""",
    check=check,
)
