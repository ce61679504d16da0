from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.nearest import did_you_mean, slip_of
from site_builder.notebook.picture_paths import picture_names


def check(analysis: Analysis) -> Iterator[Found]:
    for picture in analysis.pictures:
        if picture.path is None and not picture.story:
            near = slip_of(picture.name, picture_names(analysis.notebook, picture.at.path))
            yield Found(
                picture.at, f"There is no file `{picture.name}`.",
                f"{did_you_mean(near)}Put it beside this file or under `procedures/photos/`.", picture.about,
            )


RULE = Rule(
    code="picture-missing",
    level=Level.ERROR,
    summary="A picture, film or sound whose file is not in the notebook.",
    reason="The page would show a gap where the hand should be seen.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures: {file: sole.svg, shows: The sole on the belt}
=== procedures/photos/sole.svg
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30"/>
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures: {file: ▸sole.svg, shows: The sole on the belt}
""",
    check=check,
)
