from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.shop import Change


def check(analysis: Analysis) -> Iterator[Found]:
    for change, place in analysis.index.of(Change):
        told = change.model_fields_set | change.asked
        if "what" not in told:
            yield Found(
                change.title.at, f"What was done before, and what is done since: “{change.title}”?",
                "Add `what:` with both in a line.", place.owner_id,
            )
        if "because" not in told:
            yield Found(
                change.title.at, f"Why was it changed: “{change.title}”?", "Add `because:`.", place.owner_id
            )
        if told.isdisjoint(("results", "evidence")):
            yield Found(
                change.title.at, f"What shows that it is better so: “{change.title}”?",
                "Add `results:` with `old` and `new` for what was counted, or `evidence:`.", place.owner_id,
            )


RULE = Rule(
    code="change-unsaid",
    level=Level.QUESTION,
    summary="A change to the way of working without its figures, its ground or what was changed.",
    reason="Without old and new side by side, a change is a fashion. In ten years somebody will change it "
    "back.",
    passes="""\
=== procedures/changes/finer-belt.yml
change: finer-belt
title: P80 in place of P60
what: Belt P80, was P60.
because: The P60 left scratches.
results: {filler for one foot: {old: 9 g, new: 6 g}}
""",
    fails="""\
=== procedures/changes/finer-belt.yml
change: finer-belt
title: ▸P80 in place of P60
what: Belt P80, was P60.
because: The P60 left scratches.
""",
    check=check,
)
