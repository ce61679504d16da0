from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from site_builder.checks.rule import Rule
from site_builder.checks.rules.texts.figures import Figure, figures_in
from site_builder.checks.survey import Survey
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Spot
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.model.small import Time, Yield


def check(survey: Survey) -> Iterator[Found]:
    told: list[tuple[Spot, Figure]] = [
        (spot, figure)
        for spots in (survey.index.plain, survey.index.texts)
        for spot in spots
        if spot.key == "do" and type(spot.place.entry) is Step
        for figure in figures_in(spot.text)
    ]
    if not told:
        return
    kinds = _kinds_kept(survey, {id(spot.place.entry) for spot, _ in told})
    for spot, figure in told:
        if figure.kind not in kinds[id(spot.place.entry)]:
            yield Found(
                spot.text.at_letter(figure.start),
                f"`{figure.text}` stands only in the sentence, where nothing can check it.",
                "Give it a name under `settings` or `limits` of this step and leave it out of the sentence.",
                spot.place.owner_id,
            )


def _kinds_kept(survey: Survey, steps: set[int]) -> dict[int, set[str]]:
    """For each step the kinds of units that its values are kept in; how long it takes says nothing here."""
    kinds: dict[int, set[str]] = defaultdict(set)
    for leaf, place, _ in survey.index.values:
        for around in place.up():
            if isinstance(around.entry, (Time, Yield)):
                break
            if id(around.entry) in steps:
                kinds[id(around.entry)].update(figure.kind for figure in figures_in(leaf.text))
    return kinds


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
