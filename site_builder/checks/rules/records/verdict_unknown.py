from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.standing import MEND, standing
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.records import Trial
from site_builder.skills.grading import PLAIN


def check(analysis: Analysis) -> Iterator[Found]:
    grading = analysis.law.evidence.grading
    for trial, place in standing(analysis, Trial):
        scale = grading.scale(str(trial.felt))
        wrong = next((one for one in trial.verdicts.values() if one not in scale), None)
        if wrong is None or all(one in PLAIN for one in trial.verdicts.values()):
            continue
        words = ", ".join(f"`{one}`" for one in reversed(scale))
        plain = "" if scale == PLAIN else " Good and bad alone will do too, but not among grades."
        yield Found(wrong.at, f"`{wrong}` is no verdict that is given there. There are: {words}.{plain}",
                    MEND.format(trial.number), place.owner_id)


_SHOP = """\
=== procedures/foot/paint-foot.yml
procedure: paint-foot
title: Paint the foot
steps:
  - id: look
    do: Look at it against the window.
    checks:
      - good: One colour.
        grades: {first: Nothing to see at arm's length., second: A grain or two on the inside.}
=== skills/records/trials.yml
---
trial: 1
who: edda
date: 2026-06-19
felt: paint-foot/look
verdicts: {a: first, b: second, c: bad}
"""

RULE = Rule(
    code="verdict-unknown",
    level=Level.ERROR,
    summary="A verdict in a feel trial that is neither good nor bad nor a grade of that work.",
    reason="Two verdicts can only be held against each other where both come from the same few words.",
    passes=_SHOP,
    fails=_SHOP.replace("b: second", "b: ▸fine"),
    check=check,
)
