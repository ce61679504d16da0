from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.due import keeps_until
from site_builder.notebook.finding import Found, Level


def check(analysis: Analysis) -> Iterator[Found]:
    for id_, material in analysis.notebook.materials.items():
        kept = keeps_until(material)
        if material.opened is None or kept is None:
            continue
        last, name = kept
        if last < analysis.today:
            yield Found(
                material.opened.at,
                f"“{material.title}” was opened on {material.opened} and kept until {last.isoformat()}: that was its "
                f"{name}.",
                "Throw it away as its sheet says, and write the day on which the next one was opened.", id_,
            )


RULE = Rule(
    code="material-stale",
    level=Level.WARNING,
    summary="A material that has been open longer than it keeps.",
    reason="Stale primer looks like fresh primer. It comes off a year later, on the customer's wall.",
    passes="""\
=== tools/materials/primer.yml
material: primer
title: Grey primer
properties: {shelf life after opening: 4 mo}
opened: 2026-08-03
""",
    fails="""\
=== tools/materials/primer.yml
material: primer
title: Grey primer
properties: {shelf life after opening: 4 mo}
opened: ▸2026-07-03
""",
    check=check,
)
