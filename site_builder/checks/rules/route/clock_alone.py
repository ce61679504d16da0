from __future__ import annotations

from collections.abc import Iterator

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.conditions import figures
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.judging import End
from site_builder.notebook.model.limit import Limit, Table
from site_builder.notebook.model.procedure import Step
from site_builder.quantity import Word, references

_OF_THE_PIECE = ("material", "part", "product", "size", "season")
"""Known dimensions with which heating, drying and setting go faster or slower."""


def check(analysis: Analysis) -> Iterator[Found]:
    for end, place in analysis.index.of(End):
        step = place.parent.entry if place.parent is not None else None
        if place.key != "until" or not isinstance(step, Step) or end.ways() != ("clock",) or end.asked:
            continue
        if end.for_ or not all(_is_fixed(limit) for limit in end.clock) or len(step.until) > 1:
            continue
        varying = _varying(step)
        if varying is not None:
            name, by = varying
            yield Found(
                end.clock[0].at, f"The clock alone ends this step, always at the same figure, though “{name}” goes by "
                f"the {by}.",
                "Add what is seen or felt when it is done, and what decides (`sign: …`, `wins: sign`); or give the "
                f"clock a table, `by: {by}`.", place.owner_id,
            )


def _is_fixed(limit: Limit) -> bool:
    """A figure that holds in every case, leaning on no other value."""
    if limit.written is None or limit.by or limit.given or limit.follows or limit.for_:
        return False
    return not references(limit.written.value) and not isinstance(limit.written.value.what, Word)


def _varying(step: Step) -> tuple[str, str] | None:
    """A value of the same step and what it goes by: the material, the season, a figure such as the heat of the room."""
    for name, limit in _of_the_work(step):
        if limit.follows:
            return name, limit.follows[0].value.name
        if isinstance(limit.is_, Table) and limit.by:
            by = str(limit.by[0].name)
            if by in _OF_THE_PIECE or all(figures(row) is not None for row in limit.is_.rows):
                return name, by
    return None


def _of_the_work(step: Step) -> Iterator[tuple[str, Limit]]:
    for named in (step.settings, step.windows):
        for name, limits in named.items():
            yield from ((str(name), limit) for limit in limits)
    yield from (("wait", limit) for limit in step.wait)


RULE = Rule(
    code="clock-alone",
    level=Level.WARNING,
    summary="A step that ends by the clock alone, on a thing that varies.",
    reason="A clock does not know that the room was cold or the metal another. What is seen or felt does.",
    passes="""\
=== procedures/shared/mix-the-filler.yml
procedure: mix-the-filler
title: Mix the filler
steps:
  - do: Fold the hardener in.
    settings:
      hardener:
        by: room temperature
        is: {12..18 °C: 3 %, 18..24 °C: 2 %}
    until: {clock: min 45 s, sign: One colour without a stripe., wins: last}
""",
    fails="""\
=== procedures/shared/mix-the-filler.yml
procedure: mix-the-filler
title: Mix the filler
steps:
  - do: Fold the hardener in.
    settings:
      hardener:
        by: room temperature
        is: {12..18 °C: 3 %, 18..24 °C: 2 %}
    until: {clock: ▸min 45 s}
""",
    check=check,
)
