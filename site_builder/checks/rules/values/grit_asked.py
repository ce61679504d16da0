from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.values.wording import thing
from site_builder.notebook.finding import Found, Level
from site_builder.quantity import Word


def check(analysis: Analysis) -> Iterator[Found]:
    for leaf, place, key in analysis.index.values:
        word = leaf.value.what
        if type(word) is Word and word.text[:1].isdigit() and " grit" in word.text.lower():
            grade = word.text.partition(" ")[0]
            yield Found(
                leaf.at, f"What stands on the back of {word.text} for {thing(place, key)}, and by which standard?",
                f"Write what stands on the back, as `P{grade}` or `CAMI {grade}`.", place.owner_id,
            )


RULE = Rule(
    code="grit-asked",
    level=Level.QUESTION,
    summary="A grit of which nobody says by which standard it is counted.",
    reason=(
        "Two makers count grit by two standards, and above 220 the same number is no longer the same grain: "
        "P400 is coarser than CAMI 400."
    ),
    passes="""\
=== procedures/top/sand-top.yml
procedure: sand-top
title: Sand the top
steps:
  - {do: Sand it with the grain., settings: {grit: P80}}
""",
    fails="""\
=== procedures/top/sand-top.yml
procedure: sand-top
title: Sand the top
steps:
  - {do: Sand it with the grain., settings: {grit: ▸80 grit}}
""",
    check=check,
)
