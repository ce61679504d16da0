from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.amounts import percent_of
from site_builder.figures.ratings import over_rated, rating_words
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for one in over_rated(analysis):
        runs, rated = rating_words(one)
        title = analysis.notebook.tools[one.tooling].title
        yield Found(
            one.given.at, f"At `{one.given.input.written}` “{title}” runs at {runs}, {percent_of(one.share)} over the "
            f"{rated} it is rated for.",
            "Do not run it. Turn slower, or take a wheel or belt that is marked for more.", one.procedure,
        )


RULE = Rule(
    code="speed-over-rating",
    level=Level.ERROR,
    summary="A wheel or a belt that runs faster than is marked on it.",
    reason=(
        "The rim of a wheel runs at pi times its size times its turns. Over its rating it flies apart, and nobody "
        "outruns the pieces."
    ),
    passes="""\
=== procedures/foot/polish-foot.yml
procedure: polish-foot
title: Polish the foot
tools: mop
steps:
  - do: Polish it.
    settings: {spindle speed: 2200 rev/min}
=== tools/tooling/mop.yml
tooling: mop
title: Sisal mop
properties: {wheel size: 250 mm, rated speed: max 30 m/s}
""",
    fails="""\
=== procedures/foot/polish-foot.yml
procedure: polish-foot
title: Polish the foot
tools: mop
steps:
  - do: Polish it.
    settings: {spindle speed: ▸2800 rev/min}
=== tools/tooling/mop.yml
tooling: mop
title: Sisal mop
properties: {wheel size: 250 mm, rated speed: max 30 m/s}
""",
    check=check,
)
