from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.things import Protection


def check(analysis: Analysis) -> Iterator[Found]:
    for link in analysis.references.links:
        target = link.target
        if link.key == "wear" and target is not None and not isinstance(target.entry, Protection):
            yield Found(
                link.at, f"`{link.text}` is to be worn, but it is no protection.",
                "Name a file that begins with `protection:`, or change the first key of that file.",
                link.place.owner_id,
            )


RULE = Rule(
    code="protection-unlisted",
    level=Level.ERROR,
    summary="Something is to be worn that is no protection.",
    reason="What is worn is looked over before use and changed when it is spent. That is written in a "
    "file of the kind `protection`; a tool of another kind on that list is a slip of the pen.",
    passes="""\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
wear: face-shield
=== tools/protection/face-shield.yml
protection: face-shield
title: Face shield
""",
    fails="""\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
wear: ▸feeler-gauges
=== tools/gauges/feeler-gauges.yml
gauge: feeler-gauges
title: Feeler gauges
""",
    check=check,
)
