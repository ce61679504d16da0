from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for picture in analysis.pictures:
        facts = picture.facts
        if facts is not None and facts.problem is not None and facts.problem.code != "missing":
            message, _, fix = facts.problem.text.rstrip(".").partition(". ")
            yield Found(
                picture.at, f"`{picture.name}`: {message}.",
                f"{fix or 'Put a file here that opens on your own machine'}.", picture.about,
            )


RULE = Rule(
    code="picture-unreadable",
    level=Level.ERROR,
    summary="A file that cannot be shown as a picture, film or sound.",
    reason="The page would show a gap, and nobody would know what was in it.",
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
=== procedures/photos/sole.jpg
this is no photo
""",
    check=check,
)
