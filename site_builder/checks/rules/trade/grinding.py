"""Rules of the wheel: speeds and grits."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import both, percent_of
from site_builder.figures.batch_words import listed
from site_builder.figures.grits import too_coarse
from site_builder.figures.ratings import over_rated, rating_words
from site_builder.figures.running import outside_bands
from site_builder.notebook.finding import Found, Level


def speed_over_rating(analysis: Analysis) -> Iterator[Found]:
    for one in over_rated(analysis):
        runs, rated = rating_words(one)
        title = analysis.notebook.tools[one.tooling].title
        yield Found(
            one.given.at, f"At `{one.given.input.written}` “{title}” runs at {runs}, {percent_of(one.share)} over the "
            f"{rated} it is rated for.",
            "Do not run it. Turn slower, or take a wheel or belt that is marked for more.", one.procedure,
        )


SPEED_OVER_RATING = Rule(
    "speed-over-rating", Level.ERROR, "A wheel or a belt that runs faster than is marked on it.",
    "The rim of a wheel runs at pi times its size times its turns. Over its rating it flies apart, and nobody "
    "outruns the pieces.",
    """\
=== procedures/foot/polish-foot.yml
procedure: polish-foot
title: Polish the foot
tools: mop
steps:
  - do: Polish it.
✓     settings: {spindle speed: 2200 rev/min}
✗     settings: {spindle speed: ▸2800 rev/min}
=== tools/tooling/mop.yml
tooling: mop
title: Sisal mop
properties: {wheel size: 250 mm, rated speed: max 30 m/s}
""", speed_over_rating,
)


def speed_outside_band(analysis: Analysis) -> Iterator[Found]:
    for one in outside_bands(analysis):
        given, title = one.running.given, analysis.notebook.tools[one.running.tooling].title
        slow = one.surface.high < one.band.speeds.low
        side = "slower" if slow else "faster"
        fault = "it drags and smears" if slow else "it burns the work and snatches it"
        speeds = both(one.band.speeds, "m/s", "ft/min", given.is_inch)
        yield Found(
            given.at, f"“{title}” runs at {both(one.surface, 'm/s', 'ft/min', given.is_inch)}, {side} than is "
            f"recommended for a {one.wheel} on {one.work}, {speeds}: {fault}.",
            f"Set what lies in the band, as far as the rating allows, or write why not. From: {one.band.source}.",
            str(one.running.procedure.procedure),
        )


SPEED_OUTSIDE_BAND = Rule(
    "speed-outside-band", Level.WARNING,
    "A wheel or belt that runs slower or faster than is recommended for the work.",
    "Too slow a mop drags and smears, too fast a belt burns soft metal. The band is advice; what is marked on "
    "the wheel comes first.",
    """\
=== procedures/shop.yml
shop: quay-street
title: The shop in Quay Street
parts: {foot: {title: Foot, material: zinc}}
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: belt-p80
steps:
  - do: Grind it.
✓     settings: {belt speed: 17..19 m/s}
✗     settings: {belt speed: ▸30..35 m/s}
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: Belt, P80
=== tools/materials/zinc.yml
material: zinc
title: Zinc
""", speed_outside_band,
)


def grit_step(analysis: Analysis) -> Iterator[Found]:
    for one in too_coarse(analysis):
        step = one.step
        missing = listed([str(grade) for grade in step.between])
        yield Found(
            one.at, f"{step.after} is {step.times:.1f} times finer than {step.before} before it and does not take out "
            "its scratches.",
            f"Put {missing} between them." if missing else "Put a grit between them.", one.procedure,
        )


GRIT_STEP = Rule(
    "grit-step", Level.WARNING, "A step from one grit to the next that is too large.",
    "Each grit takes out the scratches of the one before if its grains are at most half as fine. A grade left "
    "out is paid for at the mop.",
    """\
=== procedures/hood/sand-hood.yml
procedure: sand-hood
title: Sand the hood
steps:
  - {do: Take off the rings., settings: {grit: P80}}
✓   - {do: Go across., settings: {grit: P120}}
✓   - {do: And across again., settings: {grit: P180}}
✗   - {do: Go across., settings: {grit: ▸P180}}
""", grit_step,
)
