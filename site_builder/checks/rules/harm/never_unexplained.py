from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.harm import Never


def check(analysis: Analysis) -> Iterator[Found]:
    for never, place in analysis.index.of(Never):
        if not never.because and "because" not in never.asked:
            yield Found(
                never.at, f"Why must one never do this: “{never.do.rstrip('.')}”?",
                "Add `because:` with what happened, or would happen.", place.owner_id,
            )


RULE = Rule(
    code="never-unexplained",
    level=Level.QUESTION,
    summary="A prohibition without its reason.",
    reason="A rule whose reason is lost is broken by the first clever newcomer, and kept by the next "
    "where it no longer holds.",
    passes="""\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
never:
  - do: Wear gloves at the belt.
    because: The belt takes the glove, and the hand is in it.
""",
    fails="""\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
never:
  - ▸Wear gloves at the belt.
""",
    check=check,
)
