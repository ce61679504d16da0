from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations
from typing import NamedTuple

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.tools.apart import apart
from site_builder.notebook.conditions import exclude
from site_builder.notebook.finding import At, Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.entry import Condition
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.model.small import MaterialUse


class Use(NamedTuple):
    """A material in the work: where it is named, and in which cases it is used."""

    material: str
    at: At
    cases: tuple[Condition, ...]
    through: str
    """Id of the shared procedure that it comes with; empty for the procedure's own."""


def check(analysis: Analysis) -> Iterator[Found]:
    enemies = apart(analysis.notebook)
    if not enemies:
        return
    yield from _in_mixes(analysis, enemies)
    own = _own_uses(analysis, enemies)
    shared = _shared(analysis)
    for id_ in analysis.notebook.procedures:
        uses = [*own.get(id_, ()), *_through(id_, own, shared)]
        told: set[frozenset[str]] = set()
        for one, other in combinations(uses, 2):
            pair = frozenset((one.material, other.material))
            same_page = one.through == other.through != ""  # told of that page itself
            if other.material in enemies[one.material] and pair not in told and not same_page and _meet(one, other):
                told.add(pair)
                yield _found(analysis, other.at, one.material, other.material, "are both used in this work", id_)


def _in_mixes(analysis: Analysis, enemies: Mapping[str, frozenset[str]]) -> Iterator[Found]:
    for id_, material in analysis.notebook.materials.items():
        for one, other in combinations(material.composition, 2):
            if other in enemies.get(one, ()):
                yield _found(analysis, other.at, one, other, "are both in this mix", id_)


def _own_uses(analysis: Analysis, enemies: Mapping[str, frozenset[str]]) -> Mapping[str, Sequence[Use]]:
    """By procedure, the uses of materials that have any to be kept from; one of several to choose from is left out."""
    found: dict[str, list[Use]] = defaultdict(list)
    for use, place in analysis.index.of(MaterialUse):
        if use.material in enemies and not use.or_ and place.procedure is not None:
            found[place.owner_id].append(Use(str(use.material), use.material.at, _cases(place), ""))
    return found


def _shared(analysis: Analysis) -> Mapping[str, Sequence[tuple[str, Place, At]]]:
    found: dict[str, list[tuple[str, Place, At]]] = defaultdict(list)
    for step, place in analysis.index.of(Step):
        if step.use is not None and step.use in analysis.notebook.procedures:
            found[place.owner_id].append((str(step.use), place, step.use.at))
    return found


def _through(
    id_: str, own: Mapping[str, Sequence[Use]], shared: Mapping[str, Sequence[tuple[str, Place, At]]]
) -> Iterator[Use]:
    """The uses that come with shared procedures, each at the step of this procedure that brings them."""
    for first, place, at in shared.get(id_, ()):
        seen = {id_}
        todo: list[tuple[str, tuple[Condition, ...]]] = [(first, _cases(place))]
        while todo:
            here, cases = todo.pop()
            if here in seen:
                continue
            seen.add(here)
            for use in own.get(here, ()):
                yield Use(use.material, at, (*cases, *use.cases), first)
            todo += [(used, (*cases, *_cases(inner))) for used, inner, _ in shared.get(here, ())]


def _cases(place: Place) -> tuple[Condition, ...]:
    return tuple(around.entry.for_ for around in place.up() if around.entry.for_)


def _meet(one: Use, other: Use) -> bool:
    return not any(exclude(a, b) for a in one.cases for b in other.cases)


def _found(analysis: Analysis, at: At, one: str, other: str, how: str, about: str) -> Found:
    materials = analysis.notebook.materials
    titles = [f"“{materials[id_].title}”" if id_ in materials else f"`{id_}`" for id_ in (one, other)]
    return Found(
        at, f"{titles[0]} and {titles[1]} {how}, and are to be kept apart.",
        "Use them in two procedures, or each only in its own case with `for:`; or, if they may meet after all, take "
        "the one out of `apart` of the other.", about,
    )


RULE = Rule(
    code="apart-together",
    level=Level.ERROR,
    summary="Two materials that must not meet, in the same work or the same mix.",
    reason="Somebody once wrote down that these two spoil each other, or worse. Whoever follows this page brings "
    "them together.",
    passes="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: zinc-eleven
steps: Pour.
=== tools/materials/zinc-eight.yml
material: zinc-eight
title: Zinc with 8 % aluminium
=== tools/materials/zinc-eleven.yml
material: zinc-eleven
title: Zinc with 11 % aluminium
apart: zinc-eight
""",
    fails="""\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
materials: [zinc-eleven, ▸zinc-eight]
steps: Pour.
=== tools/materials/zinc-eight.yml
material: zinc-eight
title: Zinc with 8 % aluminium
=== tools/materials/zinc-eleven.yml
material: zinc-eleven
title: Zinc with 11 % aluminium
apart: zinc-eight
""",
    check=check,
)
