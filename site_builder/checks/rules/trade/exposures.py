"""Rules on what a body is exposed to in a day."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import about, between, mass, percent
from site_builder.figures.breathed import in_the_air
from site_builder.figures.exposure import judged_lifts, noisy_works, shaken_works
from site_builder.figures.noise_day import decibels, reached_words
from site_builder.figures.vibration_day import day_words, time_left
from site_builder.formulas.errors import Impossible
from site_builder.notebook.finding import Found, Level
from site_builder.safety.verdict import NOISE_EU, NOISE_OSHA

_ACT = {"action level", "limit", "upper action value", "limit value"}


def noise_unprotected(analysis: Analysis) -> Iterator[Found]:
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


NOISE_UNPROTECTED = Rule(
    "noise-unprotected", Level.WARNING,
    "Work whose full day reaches an action value for noise, and no hearing protection is named.",
    "Hearing that is gone does not come back. From the action value on, protection has to be there; from the "
    "limit on, to be worn.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
tools: belt-grinder
steps: Grind it.
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
properties: {noise: 92 dB(A)}
✓ wear: ear-muffs
✓ === tools/protection/ear-muffs.yml
✓ protection: ear-muffs
✓ title: Ear muffs
✓ properties: {attenuation: 27 dB}
""", noise_unprotected,
)


def noise_through(analysis: Analysis) -> Iterator[Found]:
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


NOISE_THROUGH = Rule(
    "noise-through", Level.WARNING, "Noise that is over the limit even under the protection that is named.",
    "Of what a protector promises, half may be counted on. Where the rest is still too loud, the work itself "
    "must change.",
    """\
✓ === procedures/foot/grind-foot.yml
✓ procedure: grind-foot
✓ title: Grind the foot flat
✓ tools: belt-grinder
✓ steps: Grind it.
✓ === tools/machines/belt-grinder.yml
✓ machine: belt-grinder
✓ title: Belt grinder
✓ properties: {noise: 92 dB(A)}
✗ === procedures/foot/blast-foot.yml
✗ procedure: blast-foot
✗ title: ▸Blast the foot
✗ tools: blast-gun
✗ steps: Blast it.
✗ === tools/machines/blast-gun.yml
✗ machine: blast-gun
✗ title: Blast gun
✗ properties: {noise: 108 dB(A)}
wear: ear-muffs
=== tools/protection/ear-muffs.yml
protection: ear-muffs
title: Ear muffs
properties: {attenuation: 27 dB}
""", noise_through,
)


def vibration_limit(analysis: Analysis) -> Iterator[Found]:
    for id_, work in shaken_works(analysis):
        if work.day.verdict.at_the_top:
            own, tool = analysis.notebook.procedures[id_], analysis.notebook.tools[work.at.tool]
            yield Found(
                own.title.at, f"A full day of “{own.title}” with the hands at the “{tool.title}” comes to "
                f"{day_words(work.day)}. {time_left(work.at.given)}",
                "Share the work among several people, or tell how long the hands are on it for a piece as `running "
                "time`. Local law decides.", id_,
            )


VIBRATION_LIMIT = Rule(
    "vibration-limit", Level.WARNING, "Work whose full day shakes the hands up to the limit value or over it.",
    "Shaken fingers go white and numb after years, and stay so. The limit value must not be passed on any day.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: ▸Grind the foot flat
tools: belt-grinder
time: {each: 10 min}
✓ steps:
✓   - do: Grind it.
✓     settings: {running time: 2 min}
✗ steps: Grind it.
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
properties: {vibration: 6 m/s²}
""", vibration_limit,
)


def lift_heavy(analysis: Analysis) -> Iterator[Found]:
    for lift, found in judged_lifts(analysis):
        if found.verdict.at_the_top:
            index = about(between(found.lifting_index.low, found.lifting_index.high, 2), lift.load.rough)
            message = (f"`{lift.load.input.written}` lifted so has a lifting index of {index}; from 3 on nearly "
                       "everybody is at risk of a hurt back.")
            if found.recommended.high > 0:
                message += f" Recommended is no more than {mass(found.recommended, lift.load.is_inch, 2)}."
            yield Found(
                lift.load.at, message,
                "Use a hoist or two people, bring it closer and up from the floor, or lift it in parts.",
                str(lift.procedure.procedure),
            )


LIFT_HEAVY = Rule(
    "lift-heavy", Level.WARNING, "A lift that is three times what is recommended or more.",
    "By the revised NIOSH equation a lifting index of 1 is what work is designed for; from 3 on nearly everybody "
    "who does it is at higher risk of a hurt back.",
    """\
=== procedures/foot/melt.yml
procedure: melt
title: Melt
steps:
  - do: Set the ingots on the rim.
✓     settings: {lift: 8 kg, reach: 35 cm, height: from 60 to 90 cm}
✗     settings: {lift: ▸32 kg, reach: 50 cm, height: from 10 to 90 cm}
""", lift_heavy,
)


def air_over_limit(analysis: Analysis) -> Iterator[Found]:
    for id_, air in in_the_air(analysis):
        try:
            share = air.share
        except Impossible:
            continue
        if share.high > 1:
            title = analysis.notebook.materials[air.material].title
            yield Found(
                air.measured.at, f"A full day in this air uses up {percent(share)} of the limit for “{title}”, "
                f"{air.limit.input.written}.",
                "Draw it off where it rises, shorten the work, and have the air measured again. Until then a mask that "
                "somebody qualified has chosen; local law decides.", id_,
            )


AIR_OVER_LIMIT = Rule(
    "air-over-limit", Level.WARNING, "Air that was measured and holds more than its limit over a full day.",
    "Fume and dust do their harm over years. Where it was measured and is too much, there is nothing to reckon.",
    """\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: zinc
✓ conditions: {measured in the air: 1.2 mg/m³}
✗ conditions: {measured in the air: ▸7 mg/m³}
steps: Pour it.
=== tools/materials/zinc.yml
material: zinc
title: Zinc
properties: {exposure limit: 5 mg/m³}
""", air_over_limit,
)
