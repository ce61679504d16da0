from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.nearest import did_you_mean, slip_of


def check(analysis: Analysis) -> Iterator[Found]:
    known = analysis.notebook.tellings
    for one in analysis.told_entries:
        if one.moment.problem == "none" and one.moment.telling not in analysis.notebook.unread:
            near = slip_of(one.moment.telling, known)
            yield Found(
                one.text.at, f"There is no telling `{one.moment.telling}`.",
                f"{did_you_mean(near)}Name a file under `procedures/tellings/`, as `baking#t=754.2,759`, "
                "or take the line out.",
                one.place.owner_id,
            )


RULE = Rule(
    code="told-none",
    level=Level.ERROR,
    summary="An entry told in a telling that is not in the notebook.",
    reason="Nobody can hear again how it was said.",
    passes="""\
=== skills/people.yml
people:
  oda: {name: Oda Brenn, role: baker}
=== procedures/bake.yml
procedure: bake
title: Bake the loaf
steps:
  - do: Slide it on to the stone.
    told: baking#t=1,4
=== procedures/tellings/baking.yml
telling: baking
title: Oda on baking
teller: oda
transcript: baking.vtt
=== procedures/tellings/baking.vtt
WEBVTT

c001
00:00:01.000 --> 00:00:04.000
You slide it on to the stone.

c002
00:00:05.000 --> 00:00:09.500
Quick, so the heat stays in.
""",
    fails="""\
=== skills/people.yml
people:
  oda: {name: Oda Brenn, role: baker}
=== procedures/bake.yml
procedure: bake
title: Bake the loaf
steps:
  - do: Slide it on to the stone.
    told: ▸bakery#t=1,4
=== procedures/tellings/baking.yml
telling: baking
title: Oda on baking
teller: oda
transcript: baking.vtt
=== procedures/tellings/baking.vtt
WEBVTT

c001
00:00:01.000 --> 00:00:04.000
You slide it on to the stone.

c002
00:00:05.000 --> 00:00:09.500
Quick, so the heat stays in.
""",
    check=check,
)
