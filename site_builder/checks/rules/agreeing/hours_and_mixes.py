"""Rules on heats, hours, metals and mixes that contradict each other."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.agreeing.cases import Case, cases, meeting
from site_builder.checks.rules.values.bearing import borne
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.sums import ends, shown
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.people import Person
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.small import MaterialUse
from site_builder.notebook.model.things import Material
from site_builder.notebook.tree import Text
from site_builder.quantity import same_dimensions

_LISTS_OF_HEAT_MELTS = ("conditions", "settings", "limits", "state")
_PIECE = ("piece", "work", "blank", "workpiece")


def heat_melts(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for limit, place in analysis.index.of(Limit):
        own, name = place.procedure, str(place.name or "").lower()
        if own is None or place.key not in _LISTS_OF_HEAT_MELTS or not name.startswith(("heat of ", "temperature of ")):
            continue
        for part_id in nb.parts_of(own):
            part = nb.parts.get(part_id)
            of_it = name.rpartition(" of ")[2].removeprefix("the ")
            if part is None or len(part.material) != 1 or of_it.rstrip("s") not in (
                part_id, str(part.title).lower(), *_PIECE
            ):
                continue
            melts = borne(analysis, str(part.material[0]), "solidus") or borne(
                analysis, str(part.material[0]), "melting point"
            )
            start = melts[0].aim_low or melts[0].low if len(melts) == 1 else None
            for one in cases(analysis, (limit,)):
                told = [figure for figure in (one.low, one.high, one.found.aim_high) if figure is not None]
                if start is not None and one.found.kind == "temperature" and told and max(told) >= start:
                    yield Found(
                        one.written.at, f"At `{one.written}` “{part.title}” melts: its material begins to at "
                        f"{shown(melts[0], start)}.",
                        "Put right the heat and its unit, or the `solidus` of the material.", place.owner_id,
                    )


HEAT_MELTS = Rule(
    "heat-melts", Level.ERROR, "A piece that is to be so hot that its metal melts.",
    "Most often it is °F where °C is written; at the hearth the piece is lost, and it may run on to the feet.",
    """\
=== procedures/shop.yml
shop: corvane
title: The shop
parts: {hood: {title: Hood, material: brass}}
=== procedures/hood/anneal-hood.yml
procedure: anneal-hood
title: Anneal the hood
part: hood
✓ steps: {do: Heat it., settings: {heat of the hood: 500..600 °C}}
✗ steps: {do: Heat it., settings: {heat of the hood: ▸900..1100 °C}}
=== tools/materials/brass.yml
material: brass
title: Brass
properties: {solidus: 902 °C}
""", heat_melts,
)


def learning_over_hours(analysis: Analysis) -> Iterator[Found]:
    held = reckoning(analysis)
    for person, place in analysis.index.of(Person):
        if person.learning is None or person.hours is None:
            continue
        learning, hours = held.bounds(person.learning), held.bounds(person.hours)
        # Two hours a day and six a week cannot be compared without the days that are worked.
        if learning is None or hours is None or learning.unit.symbol != hours.unit.symbol:
            continue
        least, most = ends(learning)[0], ends(hours)[1]
        if least is not None and most is not None and least > most:
            yield Found(
                person.learning.at,
                f"{person.name} works `{person.hours}`; of it `{person.learning}` cannot be for lessons.",
                "Put right `learning`, which is a share of `hours`, or put right `hours`.", place.owner_id,
            )


LEARNING_OVER_HOURS = Rule(
    "learning-over-hours", Level.ERROR, "More hours for lessons than are worked.",
    "Lessons are planned within the hours that somebody works.",
    """\
=== skills/people.yml
people:
✓   ansa: {name: Ansa, hours: 6 h/week, learning: 3 h/week}
✗   ansa: {name: Ansa, hours: 6 h/week, learning: ▸30 h/week}
""", learning_over_hours,
)


_MELTING = frozenset({"solidus", "liquidus", "casting temperature", "pouring temperature"})


def metal_other(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for id_, own in nb.procedures.items():
        if own.makes or len(own.part) > 1:
            continue
        for part_id in nb.parts_of(own):
            part = nb.parts.get(part_id)
            if part is None or not part.material or part.of:
                continue
            wanted = {str(one) for one in part.material}
            wanted |= {str(member) for one in wanted if one in nb.things for member in nb.things[one].members}
            uses = [use for work in (own, *own.steps) for use in work.materials]
            if any(_names(use) & wanted for use in uses):
                continue
            for use in uses:
                other = nb.materials.get(str(use.material))
                melts = other is not None and {str(name) for name in other.properties} & _MELTING
                if melts and any(_melts(analysis, one) for one in wanted) and other is not None:
                    yield Found(
                        use.material.at, f"“{part.title}” is of `{part.material[0]}`, and here it is made of "
                        f"`{use.material}`.",
                        f"Write `{part.material[0]}` here, or put right `material` of the part in `shop.yml`.", id_,
                    )


def _names(use: MaterialUse) -> set[str]:
    return {str(use.material), *map(str, use.or_)}


def _melts(analysis: Analysis, id_: str) -> bool:
    thing = analysis.notebook.materials.get(id_)
    return thing is not None and bool({str(name) for name in thing.properties} & _MELTING)


METAL_OTHER = Rule(
    "metal-other", Level.WARNING, "A part that is of one metal, and work on it that uses another.",
    "Two metals in one pot spoil both. Solder and rod beside the metal of the part itself are no contradiction.",
    """\
=== procedures/shop.yml
shop: corvane
title: The shop
parts: {arm: {title: Arm, material: zinc-eight}}
=== procedures/arm/cast-arm.yml
procedure: cast-arm
title: Cast the arm
part: arm
✓ materials: zinc-eight
✗ materials: ▸zinc-eleven
steps: Pour.
=== tools/materials/zinc-eight.yml
material: zinc-eight
title: Zinc with 8 % aluminium
properties: {liquidus: 404 °C}
✗ === tools/materials/zinc-eleven.yml
✗ material: zinc-eleven
✗ title: Zinc with 11 % aluminium
✗ properties: {liquidus: 432 °C}
""", metal_other,
)


_FAR = 2
"""Cold and warm rooms ask for more and less of a hardener; twice as much is another mix: common practice."""


def mix_off(analysis: Analysis) -> Iterator[Found]:
    nb = analysis.notebook
    for id_, own in nb.procedures.items():
        for made in own.makes:
            material = nb.materials.get(str(made))
            if material is not None and len(material.composition) > 1:
                yield from _mixed(analysis, id_, own, material)


def _mixed(analysis: Analysis, id_: str, own: Procedure, material: Material) -> Iterator[Found]:
    parts: dict[str, Fraction] = {}
    for part, amount in material.composition.items():
        figures = reckoning(analysis).bounds(amount)
        middle = None if figures is None else ends(figures)
        if middle is not None and middle[0] is not None and middle[1] is not None and middle[0] > 0:
            parts[str(part)] = (middle[0] + middle[1]) / 2
    if len(parts) < len(material.composition):
        return
    base = max(parts, key=lambda name: parts[name])
    written = _settings(own)
    for name, limits in written.items():
        if name not in parts or name == base:
            continue
        meant = parts[name] / parts[base]
        for one in cases(analysis, limits):
            share = _share(analysis, one, written.get(base, ()))
            if share is not None and not meant / _FAR < share < meant * _FAR:
                told = {str(key): str(amount) for key, amount in material.composition.items()}
                yield Found(
                    one.written.at, f"`{one.written}` of {name} does not go with the composition of "
                    f"“{material.title}”: {told[name]} to {told[base]} of {base}.",
                    "Put right the amount here, or the composition of the material.", id_,
                )


def _settings(own: Procedure) -> dict[str, tuple[Limit, ...]]:
    return {str(name): limits for work in (own, *own.steps) for name, limits in work.settings.items()}


def _share(analysis: Analysis, one: Case, base: tuple[Limit, ...]) -> Fraction | None:
    """How much of it goes to one part of the base: as a share of it, or by both amounts."""
    if one.low is None or one.high is None:
        return None
    middle = (one.low + one.high) / 2
    if one.found.kind == "ratio":
        return middle
    others = meeting(cases(analysis, base), one.condition)
    if len(others) != 1 or not same_dimensions(others[0].found.unit, one.found.unit):
        return None
    low, high = others[0].low, others[0].high
    return None if low is None or high is None or low + high <= 0 else 2 * middle / (low + high)


MIX_OFF = Rule(
    "mix-off", Level.WARNING, "A mix that is weighed out otherwise than its composition says.",
    "Twice the hardener sets on the spatula, half of it never; one of the two figures is wrong.",
    """\
=== tools/materials/filler.yml
material: filler
title: Filler
composition: {paste: 100 parts by weight, hardener: 2 parts by weight}
=== procedures/shared/mix-filler.yml
procedure: mix-filler
title: Mix the filler
makes: filler
✓ steps: {do: Weigh both., settings: {paste: 50 g, hardener: 1 g}}
✗ steps: {do: Weigh both., settings: {paste: 50 g, hardener: ▸10 g}}
""", mix_off,
)


ORDER = (
    ("solidus", "liquidus", 1), ("solidus", "boiling point", 1), ("liquidus", "boiling point", 1),
    ("melting point", "boiling point", 1), ("liquidus", "casting temperature", 1),
    ("liquidus", "pouring temperature", 1), ("least size", "wheel size", 1),
    ("shelf life after opening", "shelf life", 1), ("yield strength", "tensile strength", 1),
    ("shear strength", "tensile strength", 1), ("dry film", "wet film", 1), ("touch dry", "hard dry", 1),
    ("inside", "outside", 1), ("inner diameter", "outer diameter", 1), ("bore", "outside", 1),
    ("wall", "outside", 2), ("wall thickness", "outside", 2), ("thread engagement", "length", 1),
)  # fmt: skip
"""Which name can never be over which, and how many of the first go into the second: a tube has two walls."""
_LESS = ("least ", "lowest ", "smallest ", "shortest ", "min ")
_MORE = ("greatest ", "highest ", "largest ", "longest ", "most ", "max ")
_LISTS_OF_NAMES_CROSSED = ("properties", "sizes", "settings", "conditions", "limits")


def names_crossed(analysis: Analysis) -> Iterator[Found]:
    seen: set[int] = set()
    for _, place in analysis.index.of(Limit):
        if place.key not in _LISTS_OF_NAMES_CROSSED or place.parent is None:
            continue
        named: Mapping[Text, tuple[Limit, ...]] = getattr(place.parent.entry, place.key)
        if len(named) > 1 and id(named) not in seen:
            seen.add(id(named))
            for lower, upper, times in _pairs(named):
                yield from _compare(analysis, place, lower, upper, times)


def _pairs(named: Mapping[Text, tuple[Limit, ...]]) -> Iterator[tuple[Text, Text, int]]:
    own = {str(name): name for name in named}
    for lower, upper, times in ORDER:
        if lower in own and upper in own:
            yield own[lower], own[upper], times
    for less in _LESS:
        for name in own:
            if name.startswith(less):
                rest = name.removeprefix(less)
                for upper in (rest, *(more + rest for more in _MORE)):
                    if upper in own and (name, upper) not in {(one, other) for one, other, _ in ORDER}:
                        yield own[name], own[upper], 1
    for more in _MORE:
        for name in own:
            if name.startswith(more) and name.removeprefix(more) in own:
                yield own[name.removeprefix(more)], own[name], 1


def _compare(analysis: Analysis, place: Place, lower: Text, upper: Text, times: int) -> Iterator[Found]:
    assert place.parent is not None
    named = getattr(place.parent.entry, place.key)
    over = cases(analysis, named[upper])
    for one in cases(analysis, named[lower]):
        against = meeting(over, one.condition)
        if one.low is not None and against and all(_past(one, other, times) for other in against):
            both = "Twice " if times == 2 else ""
            yield Found(
                one.written.at, f"{both}`{lower}` {one.written} is over `{upper}` {against[0].written}.",
                f"Put right `{lower}` or `{upper}`; it may be that the two were swapped.", place.owner_id,
            )


def _past(one: Case, other: Case, times: int) -> bool:
    return (one.low is not None and other.high is not None and same_dimensions(one.found.unit, other.found.unit)
            and times * one.low > other.high)


NAMES_CROSSED = Rule(
    "names-crossed", Level.ERROR, "Two values of which one can never be over the other, and is.",
    "Metal melts at its solidus and is all liquid at its liquidus; a wheel is never smaller than its least size; "
    "the lowest of a thing is not over its highest.",
    """\
=== tools/materials/brass.yml
material: brass
title: Brass
✓ properties: {solidus: 902 °C, liquidus: 920 °C}
✗ properties: {solidus: ▸932 °C, liquidus: 920 °C}
✗ === tools/tooling/mop.yml
✗ tooling: mop
✗ title: Mop
✗ properties: {wheel size: 250 mm, least size: ▸300 mm}
""", names_crossed,
)
