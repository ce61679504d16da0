from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.consent import heard_in, shown, unasked
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for id_, telling in nb.tellings.items():
        if telling.recording is None or shown(nb) == "words":
            continue
        for who in unasked(nb, telling):
            name = nb.people[who].name if who in nb.people else who
            yield Found(telling.recording.at, f"Does {name} agree that the handbook plays this recording?",
                        f"Write into `shop.yml`: `recordings: {{agreed: [{who}]}}`; or `declined: [{who}]`.", id_)
        if not heard_in(telling):
            yield Found(telling.recording.at, "Whose voice is this?",
                        "Add `teller:`, and `others:` if more are heard.", id_)


RULE = Rule(
    code="voice-unasked",
    level=Level.QUESTION,
    summary="A recording, and nobody has said whether whoever is heard agreed to be played.",
    reason="A voice is not copied into a handbook before the person has said yes; the words are shown all the same.",
    passes="""\
=== procedures/shop.yml
shop: bakery
title: The bakery
recordings: {agreed: [oda]}
=== skills/people.yml
people:
  oda: {name: Oda Brenn, role: baker}
=== procedures/tellings/baking.yml
telling: baking
title: Oda on baking
teller: oda
recording: baking.wav
=== procedures/tellings/baking.wav
RIFF
""",
    fails="""\
=== skills/people.yml
people:
  oda: {name: Oda Brenn, role: baker}
=== procedures/tellings/baking.yml
telling: baking
title: Oda on baking
teller: oda
recording: ▸baking.wav
=== procedures/tellings/baking.wav
RIFF
""",
    check=check,
)
