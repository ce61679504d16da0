from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from itertools import islice

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.texts.figures import figures_in
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.model.small import Time, Yield

MOST = 10
"""So many figures of one sentence are told; whoever mends them sees the rest."""


def check(analysis: Analysis) -> Iterator[Found]:
    told = [
        (step.do, figure, place)
        for step, place in analysis.index.of(Step)
        if step.do is not None and any(map(str.isdigit, step.do))
        for figure in islice(figures_in(step.do), MOST)
    ]
    if not told:
        return
    kept = _kept(analysis, {id(place.entry) for _, _, place in told})
    for do, figure, place in told:
        if figure.kind not in kept[id(place.entry)] and figure.text not in kept[id(place.owner)]:
            yield Found(
                do.at_letter(figure.start),
                f"`{figure.text}` stands only in the sentence, where nothing can check it.",
                "Give it a name under `settings` or `limits` of this step and leave it out of the sentence.",
                place.owner_id,
            )


def _kept(analysis: Analysis, steps: set[int]) -> dict[int, set[str]]:
    """What is kept as values: for each step the kinds of units, for each page the figures that hold throughout.

    How long a thing takes or how much of it is lost says nothing about the figures in its sentence.
    """
    kept: dict[int, set[str]] = defaultdict(set)
    for leaf, place, _ in analysis.index.values:
        for around in place.up():
            if isinstance(around.entry, (Time, Yield)):
                break
            if type(around.entry) is Step:
                if id(around.entry) in steps:
                    kept[id(around.entry)].update(figure.kind for figure in figures_in(leaf.text))
                break
            if around.parent is None:
                kept[id(around.entry)].update(figure.text for figure in figures_in(leaf.text))
    return kept


RULE = Rule(
    code="do-figure",
    level=Level.WARNING,
    summary="A figure hidden in a sentence.",
    reason=(
        "A figure among `settings` or `limits` is checked against the machine, found in the tables and "
        "changed in one place; in a sentence it is only read."
    ),
    passes="""\
=== procedures/foot/cure-foot.yml
procedure: cure-foot
title: Harden the paint of the foot
steps:
  - do: Hang 12 feet in the oven and heat them.
    settings: {oven temperature: 80 ±5 °C}
""",
    fails="""\
=== procedures/foot/cure-foot.yml
procedure: cure-foot
title: Harden the paint of the foot
steps:
  - do: Hang 12 feet in the oven and heat them to ▸80 °C.
""",
    check=check,
)
