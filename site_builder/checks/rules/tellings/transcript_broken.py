from __future__ import annotations

from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Level

RULE = Rule(
    code="transcript-broken",
    level=Level.ERROR,
    summary="A transcript that cannot be read.",
    reason="What was told would stand nowhere, and nobody would see that it is missing.",
    passes="""\
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
=== procedures/tellings/baking.yml
telling: baking
title: Oda on baking
teller: oda
transcript: baking.vtt
=== procedures/tellings/baking.vtt
WEBVTT

c001
▸00:00:01.000 --> later
You slide it on to the stone.
""",
)
