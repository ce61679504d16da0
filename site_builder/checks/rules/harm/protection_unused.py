from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level

_ASKS = frozenset({"wear", "tool", "or_", "with_"})
"""Keys by which protection is put on or taken in hand."""


def check(analysis: Analysis) -> Iterator[Found]:
    notebook = analysis.notebook
    if notebook.unread:  # whatever asks for it may be among what could not be read
        return
    asked = {
        id_
        for kind, id_ in analysis.references.uses
        if kind == "tool" and any(link.key in _ASKS for link in analysis.references.used_in(kind, id_))
    }
    for id_, protection in notebook.protection.items():
        kin = (id_, *notebook.groups.get(id_, ()), *map(str, protection.members))
        if asked.isdisjoint(kin):
            yield Found(
                protection.at, f"Nothing in the shop asks anybody to wear the {protection.title[:1].lower()}"
                f"{protection.title[1:]}.",
                "Write it under `wear` of the hazard, the tool or the material that it protects from.", id_,
            )


RULE = Rule(
    code="protection-unused",
    level=Level.WARNING,
    summary="Protection that no hazard, tool or material asks for.",
    reason="It was bought for something. If no page tells for what, it hangs on its nail while somebody "
    "is hurt.",
    passes="""\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
wear: ear-defenders
=== tools/protection/ear-defenders.yml
protection: ear-defenders
title: Ear defenders
""",
    fails="""\
=== tools/machines/belt-grinder.yml
machine: belt-grinder
title: Belt grinder
=== tools/protection/ear-defenders.yml
▸protection: ear-defenders
title: Ear defenders
""",
    check=check,
)
