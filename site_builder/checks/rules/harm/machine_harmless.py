from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.gather import harm_untold
from site_builder.notebook.model.things import Machine


def check(analysis: Analysis) -> Iterator[Found]:
    notebook = analysis.notebook
    if notebook.unread:  # the group that tells its hazards may be among what could not be read
        return
    for machine, place in analysis.index.of(Machine):
        if harm_untold(notebook, machine) and "hazards" not in machine.asked:
            yield Found(
                machine.at, f"{machine.title}: not a word on what this machine can do to you.",
                "Add `hazards:` with what it can do, how to avoid it and what to wear.", place.owner_id,
            )


RULE = Rule(
    code="machine-harmless",
    level=Level.WARNING,
    summary="A machine without a single hazard.",
    reason="There is no machine that cannot hurt. Whoever has worked on one for years no longer sees "
    "how, and a newcomer does not see it yet.",
    passes="""\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
hazards:
  - hazard: drawn in
    word: warning
    harm: A sleeve is drawn under the rest.
    avoid: Sleeves above the elbow.
""",
    fails="""\
=== tools/machines/belt-grinder.yml
▸machine: belt-grinder
title: Belt grinder
""",
    check=check,
)
