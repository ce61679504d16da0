"""Rules on what materials are, and on what must not meet."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from itertools import combinations
from typing import NamedTuple

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.tools.apart import apart
from site_builder.notebook.conditions import exclude, meet, span
from site_builder.notebook.finding import At, Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.entry import Condition
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.model.small import MaterialUse
from site_builder.notebook.model.things import Material
from site_builder.quantity import Bounds, Quantity, Value, bounds, same_dimensions


class Use(NamedTuple):
    """A material in the work: where it is named, and in which cases it is used."""

    material: str
    at: At
    cases: tuple[Condition, ...]
    through: str
    """Id of the shared procedure that it comes with; empty for the procedure's own."""


def apart_together(analysis: Analysis) -> Iterator[Found]:
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


APART_TOGETHER = Rule(
    "apart-together", Level.ERROR, "Two materials that must not meet, in the same work or the same mix.",
    "Somebody once wrote down that these two spoil each other, or worse. Whoever follows this page brings them "
    "together.",
    """\
=== procedures/foot/cast-foot.yml
procedure: cast-foot
title: Cast the foot
✓ materials: zinc-eleven
✗ materials: [zinc-eleven, ▸zinc-eight]
steps: Pour.
=== tools/materials/zinc-eight.yml
material: zinc-eight
title: Zinc with 8 % aluminium
=== tools/materials/zinc-eleven.yml
material: zinc-eleven
title: Zinc with 11 % aluminium
apart: zinc-eight
""", apart_together,
)


_WHOLE = Fraction(1)
_ROUGH = Fraction(1, 10)
"""How far off `about` may be: a tenth of the figure. Common practice."""


def composition_sum(analysis: Analysis) -> Iterator[Found]:
    for material, place in analysis.index.of(Material):
        shares = [_share(share) for share in material.composition.values()]
        told = [share for share in shares if share is not None]
        if not told or len(told) < len(shares):
            continue
        least = sum((share.low for share in told), Fraction(0))
        most = sum((share.high for share in told), Fraction(0))
        play = sum((share.play for share in told), Fraction(0))
        if least <= _WHOLE <= most or least - play < _WHOLE < most + play:
            continue
        yield Found(
            next(iter(material.composition)).at,
            f"The parts of “{material.title}” add up to {_percent(least)} at least, and no more than 100 % can be."
            if least > _WHOLE else
            f"The parts of “{material.title}” add up to {_percent(most)} at most; of the rest nothing is told.",
            "Mend the shares, or mark what fills up to 100 % with the word `rest`.", place.owner_id,
        )


class _Share(NamedTuple):
    """From where to where a share reaches, and what it may be off besides: by rounding, or because it is rough."""

    low: Fraction
    high: Fraction
    play: Fraction


def _share(written: Written) -> _Share | None:
    """A share in per cent; None for another measure, a word, a doubt or a name."""
    figures = bounds(written.value)
    if written.value.perhaps or figures is None or figures.unit.symbol != "%":
        return None
    if figures.low_untold or figures.high_untold or figures.relative:
        return None
    low, high = span(figures)
    most = _WHOLE if high is None else high
    return _Share(low or Fraction(0), most, _ROUGH * most if figures.rough else _rounding(written.value))


def _rounding(value: Value) -> Fraction:
    """Half of the last digit of a bare figure."""
    what = value.what
    if not isinstance(what, Quantity) or len(what.parts) != 1:
        return Fraction(0)
    decimals = what.parts[0].number.text.partition(".")[2]
    return Fraction(1, 200 * 10 ** len(decimals))


def _percent(share: Fraction) -> str:
    return f"{float(share * 100):.4g} %"


COMPOSITION_SUM = Rule(
    "composition-sum", Level.ERROR, "The parts of a material cannot add up to 100 %.",
    "Somebody mixes, buys or melts by these figures. If they do not add up, one of them is wrong, and nobody "
    "knows which.",
    """\
=== tools/materials/brass-sheet.yml
material: brass-sheet
title: Brass sheet
✓ composition: {copper: 62..64 %, lead: max 0.1 %, zinc: rest}
✗ composition: {▸copper: 62..64 %, zinc: 39..41 %}
""", composition_sum,
)


def property_doubled(analysis: Analysis) -> Iterator[Found]:
    things = analysis.notebook.things
    for member, groups in analysis.notebook.groups.items():
        for group in groups:
            if member not in things:
                continue
            of_all = things[group].properties
            for name, limits in things[member].properties.items():
                one, other = _only(limits), _only(of_all.get(name, ()))
                if one is not None and other is not None and _contradict(one, other):
                    yield Found(
                        one.at, f"“{things[group].title}” says {other} for the {name} of all its members; here it says "
                        f"{one}.",
                        "Mend the one that is wrong, or take it out of the group and write it with each member.",
                        member,
                    )


def _only(limits: Sequence[Limit]) -> Written | None:
    """The value of a property that is the same in every case."""
    if len(limits) != 1 or limits[0].for_ or limits[0].given or limits[0].follows:
        return None
    return limits[0].written


def _contradict(one: Written, other: Written) -> bool:
    """Whether no figure is right for both. What is rough or doubted contradicts nothing."""
    a, b = _figures(one), _figures(other)
    return a is not None and b is not None and same_dimensions(a.unit, b.unit) and not meet(a, b) and not _touch(a, b)


def _figures(written: Written) -> Bounds | None:
    found = bounds(written.value)
    if written.value.perhaps or found is None or found.rough or found.relative:
        return None
    return found


def _touch(a: Bounds, b: Bounds) -> bool:
    """Whether two limits share the figure at their end."""
    return (a.high is not None and a.high == b.low) or (b.high is not None and b.high == a.low)


PROPERTY_DOUBLED = Rule(
    "property-doubled", Level.ERROR, "A thing contradicts the group it belongs to.",
    "What a group says holds for all of its members. Of two figures that exclude each other one is wrong, and "
    "the reader takes the one he sees first.",
    """\
=== tools/tooling/belt-p80.yml
tooling: belt-p80
title: Belt, P80
✓ properties: {rated speed: max 30 m/s}
✗ properties: {rated speed: ▸min 40 m/s}
=== tools/tooling/belts.yml
tooling: belts
title: Belts
members: belt-p80
properties: {rated speed: max 32 m/s}
""", property_doubled,
)
