from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for picture in analysis.pictures:
        facts = picture.facts
        if facts is not None and facts.has_location:
            yield Found(
                picture.at, f"`{picture.name}` tells where it was taken.",
                "Save it again without its place; most phones ask for it when something is sent.",
                picture.about,
            )


RULE = Rule(
    code="picture-located",
    level=Level.WARNING,
    summary="A photo, a film or a sound that tells where it was taken.",
    reason=(
        "The pages are published without it, but the notebook goes from hand to hand with the file as it "
        "came from the phone."
    ),
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures: {file: sole.jpg, shows: The sole on the belt}
=== procedures/photos/sole.jpg photo 400x300
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures: {file: ▸sole.jpg, shows: The sole on the belt}
=== procedures/photos/sole.jpg photo 400x300 with its place
""",
    check=check,
)
