from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.telling_files import telling_file


def check(analysis: Analysis) -> Iterator[Found]:
    root = analysis.notebook.root
    for id_, telling in analysis.notebook.tellings.items():
        for name in filter(None, (telling.transcript, telling.recording)):
            if telling_file(root, telling, str(name)) is None:
                yield Found(name.at, f"There is no file `{name}`.",
                            "Put it beside this file, under `procedures/tellings/`, or take the line out.", id_)


RULE = Rule(
    code="telling-file-none",
    level=Level.ERROR,
    summary="A recording or transcript whose file is not in the notebook.",
    reason="What was told would be lost with the phone that recorded it.",
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
transcript: ▸baking.vtt
""",
    check=check,
)
