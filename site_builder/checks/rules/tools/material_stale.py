from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from site_builder.checks.rule import Rule
from site_builder.checks.survey import Survey
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.spans import day_after, longest_span
from site_builder.notebook.tree import Text

_LIVES = ("shelf life after opening", "shelf life")
"""What is open keeps less long than what is shut; where only the latter is told, it is surely past that."""


def check(survey: Survey) -> Iterator[Found]:
    for id_, material in survey.notebook.materials.items():
        opened = material.opened
        told = None if opened is None else _longest(material.properties)
        if opened is None or told is None:
            continue
        name, span = told
        last = day_after(opened.value.last, span)
        if last < survey.today:
            yield Found(
                opened.at, f"“{material.title}” was opened on {opened} and kept until {last.isoformat()}: that was its "
                f"{name}.",
                "Throw it away as its sheet says, and write the day on which the next one was opened.", id_,
            )


def _longest(properties: Mapping[Text, Sequence[Limit]]) -> tuple[str, Fraction] | None:
    """The life that is told for an open tin, and its seconds in the case in which it keeps longest."""
    for name in _LIVES:
        written = [cell.written for limit in properties.get(Text(name), ()) for _, cell in limit.cells()]
        spans = [longest_span(one.value) for one in written if one is not None]
        told = [span for span in spans if span is not None]
        if written and len(told) == len(written):
            return name, max(told)
    return None


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
