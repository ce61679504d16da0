from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.exposure import noisy_works
from site_builder.figures.noise_day import decibels
from site_builder.notebook.finding import Found, Level
from site_builder.safety.verdict import NOISE_EU


def check(analysis: Analysis) -> Iterator[Found]:
    limit = NOISE_EU.marks[-1].value
    for id_, work in noisy_works(analysis):
        ear = work.day.at_ear
        if work.worn is not None and ear is not None and ear.high >= limit:
            own, worn = analysis.notebook.procedures[id_], analysis.notebook.tools[work.worn.id]
            yield Found(
                own.title.at, f"Even under “{worn.title}” a full day of “{own.title}” leaves "
                f"{decibels(ear, work.day.rough)} at the ear; {limit:g} dB(A) is the limit there.",
                "Make it quieter or shorter, or wear plugs under the muffs, and have it measured. Local law decides.",
                id_,
            )


RULE = Rule(
    code="noise-through",
    level=Level.WARNING,
    summary="Noise that is over the limit even under the protection that is named.",
    reason=(
        "Of what a protector promises, half may be counted on. Where the rest is still too loud, the work itself must "
        "change."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: belt-grinder
steps: Grind it.
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
properties: {noise: 92 dB(A)}
wear: ear-muffs
=== tools/protection/ear-muffs.yml
protection: ear-muffs
title: Ear muffs
properties: {attenuation: 27 dB}
""",
    fails="""\
=== procedures/foot/blast-foot.yml
procedure: blast-foot
title: ▸Blast the foot
tools: blast-gun
steps: Blast it.
=== tools/machines/blast-gun.yml
machine: blast-gun
title: Blast gun
properties: {noise: 108 dB(A)}
wear: ear-muffs
=== tools/protection/ear-muffs.yml
protection: ear-muffs
title: Ear muffs
properties: {attenuation: 27 dB}
""",
    check=check,
)
