from __future__ import annotations

from collections.abc import Iterator

from site_builder.checks.rule import Rule
from site_builder.checks.survey import Survey
from site_builder.notebook.finding import Found, Level


def check(survey: Survey) -> Iterator[Found]:
    for picture in survey.pictures:
        facts = picture.facts
        if facts is not None and facts.problem is not None and facts.problem.code != "missing":
            message, _, mend = facts.problem.text.rstrip(".").partition(". ")
            yield Found(
                picture.at, f"`{picture.name}`: {message}.",
                f"{mend or 'Put a file here that opens on your own machine'}.", picture.about,
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
