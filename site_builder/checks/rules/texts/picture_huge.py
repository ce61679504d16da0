from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for picture in analysis.pictures:
        facts = picture.facts
        if facts is not None and facts.kind == "photo" and facts.huge:
            yield Found(
                picture.at,
                f"`{picture.name}` is {facts.width} x {facts.height} pixels and {facts.bytes / 1e6:.1f} MB.",
                "Save it at most 4000 pixels wide and smaller than 8 MB.", picture.about,
            )


RULE = Rule(
    code="picture-huge",
    level=Level.WARNING,
    summary="A photo larger than any page can use.",
    reason="A notebook full of such photos no longer fits on the stick or in the post.",
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
=== procedures/photos/sole.jpg photo 4400x3000
""",
    check=check,
)
