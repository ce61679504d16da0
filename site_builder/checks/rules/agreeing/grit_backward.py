from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.figures.grits import Sanding, sandings
from site_builder.formulas.errors import Impossible
from site_builder.formulas.grits import grain_size
from site_builder.notebook.conditions import exclude
from site_builder.notebook.finding import Found, Level

_COARSER = 1.01
"""Grades of two standards overlap; less than a hundredth is the same grade."""


def check(analysis: Analysis) -> Iterator[Found]:
    for id_, row in sandings(analysis).items():
        own = analysis.notebook.procedures[id_]
        for before, after in pairwise(row):
            if exclude(before.condition, after.condition) or before.condition != after.condition:
                continue
            steps = list(own.steps)
            first, last = (
                next((i for i, one in enumerate(steps) if one is used.step), None) for used in (before, after)
            )
            between = steps[first + 1 : last + 1] if first is not None and last is not None else []
            # What is filled, painted or turned over begins anew with a coarse grit.
            anew = any(one.materials or one.makes or one.use for one in between)
            if not anew and _is_coarser(before, after):
                yield Found(
                    after.at, f"{after.grade} after {before.grade} is coarser and cuts deep scratches again.",
                    f"Put {after.grade} before {before.grade}, or write the grit that was meant.", id_,
                )


def _is_coarser(before: Sanding, after: Sanding) -> bool:
    try:
        return grain_size(after.grade).middle > grain_size(before.grade).middle * _COARSER
    except Impossible:
        return False


RULE = Rule(
    code="grit-backward",
    level=Level.WARNING,
    summary="A coarser grit after a finer one.",
    reason="The scratches of the coarser stay, and the work with the finer was for nothing.",
    passes="""\
=== procedures/hood/sand-hood.yml
procedure: sand-hood
title: Sand the hood
steps:
  - {do: Go across., settings: {grit: P180}}
  - {do: And across again., settings: {grit: P240}}
""",
    fails="""\
=== procedures/hood/sand-hood.yml
procedure: sand-hood
title: Sand the hood
steps:
  - {do: Go across., settings: {grit: P240}}
  - {do: And across again., settings: {grit: ▸P180}}
""",
    check=check,
)
