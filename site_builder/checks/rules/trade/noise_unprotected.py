from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.exposure import noisy_works
from site_builder.figures.noise_day import decibels, reached_words
from site_builder.notebook.finding import Found, Level
from site_builder.safety.verdict import NOISE_EU, NOISE_OSHA

_ACT = {"action level", "limit", "upper action value", "limit value"}


def check(analysis: Analysis) -> Iterator[Found]:
    for id_, work in noisy_works(analysis):
        acts = [one for one in work.day.verdicts if one.yardstick in (NOISE_OSHA, NOISE_EU)
                and one.reached is not None and one.reached.name in _ACT]
        if acts and work.worn is None:
            own, tool = analysis.notebook.procedures[id_], analysis.notebook.tools[work.at.tool]
            yield Found(
                own.title.at, f"A full day of “{own.title}” at the “{tool.title}” comes to "
                f"{decibels(work.day.level, work.day.rough)}, {reached_words(acts)}, and no hearing protection is "
                "named.",
                "Name what is worn over the ears under `wear` at the hazard or the machine, or tell how long the "
                "machine runs for a piece as `running time`. Local law decides.", id_,
            )


RULE = Rule(
    code="noise-unprotected",
    level=Level.WARNING,
    summary="Work whose full day reaches an action value for noise, and no hearing protection is named.",
    reason=(
        "Hearing that is gone does not come back. From the action value on, protection has to be there; from the "
        "limit on, to be worn."
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
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
tools: belt-grinder
steps: Grind it.
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
properties: {noise: 92 dB(A)}
""",
    check=check,
)
