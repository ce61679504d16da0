from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.nearest import did_you_mean, slip_of


def check(analysis: Analysis) -> Iterator[Found]:
    for id_, telling in analysis.notebook.tellings.items():
        transcript = analysis.notebook.transcripts.get(id_)
        if transcript is None:
            continue
        known = [cue.id for cue in transcript.cues]
        for name in (*telling.laid_aside, *telling.taken_up):
            if str(name) not in known:
                near = did_you_mean(slip_of(str(name), known))
                yield Found(name.at, f"No sentence of the transcript is called `{name}`.",
                            f"{near}They go from `{known[0]}` to `{known[-1]}`.", id_)


RULE = Rule(
    code="cue-none",
    level=Level.ERROR,
    summary="A sentence that is taken up or laid aside, and is not in the transcript.",
    reason="The count of what is still open would be wrong.",
    passes="""\
=== procedures/tellings/baking.yml
telling: baking
title: Oda on baking
teller: oda
transcript: baking.vtt
laid aside: [c002]
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
=== procedures/tellings/baking.yml
telling: baking
title: Oda on baking
teller: oda
transcript: baking.vtt
laid aside: [▸c003]
taken up: {▸c3: the stone}
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
