from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for picture in analysis.pictures:
        if not picture.shows and not picture.asked:
            fix = "Write it between `[` and `]`." if picture.story else "Add `shows:` with what one sees."
            yield Found(picture.at, f"What does `{picture.name}` show?", fix, picture.about)


RULE = Rule(
    code="picture-undescribed",
    level=Level.QUESTION,
    summary="A picture without a word on what it shows.",
    reason="Who cannot see it has it read aloud, and who can see it looks at the right spot.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures: {file: sole.jpg, shows: The sole lies flat on the belt}
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures: ▸sole.jpg
""",
    check=check,
)
