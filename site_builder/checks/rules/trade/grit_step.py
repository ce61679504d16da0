from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.batch_words import listed
from site_builder.figures.grits import too_coarse
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for one in too_coarse(analysis):
        step = one.step
        missing = listed([str(grade) for grade in step.between])
        yield Found(
            one.at, f"{step.after} is {step.times:.1f} times finer than {step.before} before it and does not take out "
            "its scratches.",
            f"Put {missing} between them." if missing else "Put a grit between them.", one.procedure,
        )


RULE = Rule(
    code="grit-step",
    level=Level.WARNING,
    summary="A step from one grit to the next that is too large.",
    reason=(
        "Each grit takes out the scratches of the one before if its grains are at most half as fine. A grade left out "
        "is paid for at the mop."
    ),
    passes="""\
=== procedures/hood/sand-hood.yml
procedure: sand-hood
title: Sand the hood
steps:
  - {do: Take off the rings., settings: {grit: P80}}
  - {do: Go across., settings: {grit: P120}}
  - {do: And across again., settings: {grit: P180}}
""",
    fails="""\
=== procedures/hood/sand-hood.yml
procedure: sand-hood
title: Sand the hood
steps:
  - {do: Take off the rings., settings: {grit: P80}}
  - {do: Go across., settings: {grit: ▸P180}}
""",
    check=check,
)
