from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for picture in analysis.pictures:
        if picture.facts is not None and picture.facts.removed:
            yield Found(
                picture.at, f"`{picture.name}` holds what the handbook leaves out: {', '.join(picture.facts.removed)}.",
                "See in the handbook that nothing is missing, or save the drawing again as plain SVG.", picture.about,
            )


RULE = Rule(
    code="picture-cleaned",
    level=Level.WARNING,
    summary="A drawing that holds something which acts, or which is fetched from elsewhere.",
    reason="The handbook shows it without; but the notebook goes from hand to hand with it.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures: {file: sole.svg, shows: The sole on the belt}
=== procedures/photos/sole.svg
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30"><path d="M0 0h9"/></svg>
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
steps:
  - do: Sweep it along the belt.
    pictures: {file: ▸sole.svg, shows: The sole on the belt}
=== procedures/photos/sole.svg
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30"><script>count()</script><path d="M0 0h9"/></svg>
""",
    check=check,
)
