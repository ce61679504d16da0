from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.judging import End

_ANY = ("first", "last")


def check(analysis: Analysis) -> Iterator[Found]:
    for end, place in analysis.index.of(End):
        if end.wins is None or end.wins in _ANY or end.wins in end.asked or end.wins in end.ways():
            continue
        told = end.ways()
        instead = " or ".join(f"`{one}`" for one in told)
        yield Found(
            end.wins.at, f"`{end.wins}` decides here, but no `{end.wins}` is told.",
            f"Add `{end.wins}:`" + (f", or write {instead}." if told else "."), place.owner_id,
        )


RULE = Rule(
    code="wins-none",
    level=Level.ERROR,
    summary="What decides that it is done is not told.",
    reason="Where several signs end a step, `wins` names the one to be trusted. If that one is missing, the "
    "reader trusts another.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    until: {clock: about 2 min, sign: The casting skin is gone., wins: sign}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    until: {clock: about 2 min, sign: The casting skin is gone., wins: ▸feel}
""",
    check=check,
)
