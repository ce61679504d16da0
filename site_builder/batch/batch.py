"""What a batch takes: of each part the pieces to start, and for each procedure hours of hands and standing time."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import ceil

from site_builder.batch.faults import BadFigure
from site_builder.batch.leg import Leg, leg_of
from site_builder.batch.span import NONE, Span, total
from site_builder.batch.starts import Starts, loses_any, lots_of, starts
from site_builder.batch.times import Run
from site_builder.batch.variant import holding
from site_builder.formulas import guards
from site_builder.formulas.batch_hours import Spent, Work, batch_hours, costliest
from site_builder.formulas.batch_time import WorkTime
from site_builder.formulas.errors import Impossible
from site_builder.formulas.used_up import fresh_ones
from site_builder.notebook.gather import used_procedures
from site_builder.notebook.model.entry import Condition
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.reckoning import Reckoning
from site_builder.notebook.route import Route
from site_builder.notebook.way import span, ways
from site_builder.notebook.ways import conditions_of

CONFIDENCE = 0.95
"""The chance that enough come out, where nobody asks for another. Common practice."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """So many good pieces of a product or part, in these variants, with this chance (0 to 1).

    ``way`` are those of the variants that tell this batch from another that stands beside it; ``share`` is the number
    of its share in an order that is split.
    """

    product: str
    pieces: int
    chosen: Mapping[str, str] = field(default_factory=dict)
    confidence: float = CONFIDENCE
    way: Mapping[str, str] = field(default_factory=dict)
    share: int = 0


@dataclass(frozen=True, slots=True)
class LegSpent:
    """What one procedure takes of the batch, in seconds.

    ``pieces`` come to it on average, ``lost`` of them are kept or thrown back, in ``lots`` it is begun. ``setup`` and
    ``work`` are people's time, None where none is told or it is done outside; ``standing`` is nobody's.
    ``runs`` are the shared work beside it with how often it is done.
    """

    leg: Leg
    pieces: Fraction
    lost: int
    lots: int
    setup: Span | None
    work: Span | None
    standing: Span
    runs: tuple[tuple[Run, int], ...]
    hands: Span = field(init=False)
    """People's time, setting up and working."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "hands", (self.setup or NONE) + (self.work or NONE))

    @property
    def tells_time(self) -> bool:
        """Whether all of its time is told."""
        return self.leg.times is not None and not self.leg.times.gaps and self.work is not None


@dataclass(frozen=True, slots=True)
class PartBatch:
    """One part of the batch: ``wanted`` good ones with this chance, so ``starts`` them; and its procedures in order."""

    part: str
    wanted: int
    confidence: float
    starts: Starts
    legs: tuple[LegSpent, ...]


@dataclass(frozen=True, slots=True)
class Batch:
    """The whole batch. ``parts`` are made here, the product last; ``bought`` are bought in, with how many.

    ``made_beside`` are parts that come out of other work of the shop, whose own way is not told.
    """

    wanted: Wanted
    parts: tuple[PartBatch, ...]
    bought: tuple[tuple[str, int], ...]
    faults: tuple[BadFigure, ...]
    made_beside: tuple[tuple[str, int], ...] = ()

    def chosen_of(self, nb: Notebook, part: str) -> Mapping[str, str]:
        """The variants of one part in this batch."""
        return _chosen_of(nb, part, self.wanted.chosen)

    @property
    def legs(self) -> tuple[LegSpent, ...]:
        """All procedures of all parts."""
        return tuple(leg for part in self.parts for leg in part.legs)

    @property
    def timed(self) -> bool:
        """Whether any procedure tells its time."""
        return any(leg.work is not None for leg in self.legs)

    def part(self, id_: str) -> PartBatch | None:
        """What the batch takes of one part; None where it is not made for it."""
        return next((part for part in self.parts if part.part == id_), None)


def hands_of_all(legs: Sequence[LegSpent]) -> Span:
    """People's time in these procedures."""
    return total(leg.hands for leg in legs)


def most_hours(legs: Sequence[LegSpent], count: int = 3) -> tuple[LegSpent, ...]:
    """The procedures that take most of people's time, the greatest first, by the middle of what they take."""
    spent = [Spent(str(n), leg.pieces, NONE.least, (leg.hands.least + leg.hands.most) / 2, NONE.least)
             for n, leg in enumerate(legs)]
    return tuple(legs[int(one.name)] for one in costliest(spent, count))


class Undecided(Impossible):
    """A batch that can be made in several ways of which none is chosen; ``open`` are the choices with their values."""

    def __init__(self, open_: Mapping[str, Sequence[str]]) -> None:
        self.open = open_
        choices = "; ".join(f"{name}: {' or '.join(values)}" for name, values in open_.items())
        super().__init__("the way it is made", "", "left open", f"must be chosen ({choices})")


def reckon_batch(nb: Notebook, route: Route, reckoning: Reckoning, wanted: Wanted) -> Batch:
    """What the batch takes in hours and pieces, as far as the notebook tells.

    Raises ``Undecided`` where several ways of making it are open that differ, since they are never added up; and
    ``Impossible`` for less than one piece, a chance of 0 or 1, or more than can be reckoned.
    """
    found = reckon_each_way(nb, route, reckoning, wanted, lambda batch: (batch.parts, batch.bought))
    if len(found) > 1:
        names = dict.fromkeys(name for batch in found for name in batch.wanted.way)
        raise Undecided({name: tuple(dict.fromkeys(batch.wanted.way[name] for batch in found)) for name in names})
    return found[0]


def reckon_each_way(
    nb: Notebook, route: Route, reckoning: Reckoning, wanted: Wanted, outcome: Callable[[Batch], object]
) -> tuple[Batch, ...]:
    """The batch once for each way in which it can be made, as far as their ``outcome`` differs.

    ``wanted.way`` of each names what tells it from the others; a single way has none. Raises as ``reckon_batch``.
    """
    parts = _with_all_parts(nb, wanted.product)
    all_ways = ways(nb, route)
    conditions: dict[str, list[Condition]] = {}
    for part in parts:
        known = {"part", *nb.parts[part].chosen, *wanted.chosen}
        for own in (nb.procedures[id_] for id_ in all_ways.get(part, ()) if _holds(
            nb, id_, _chosen_of(nb, part, wanted.chosen))):
            for one in conditions_of((own, *used_procedures(nb, own))):
                for name in {str(name) for choice in one for name in choice} - known:
                    conditions.setdefault(name, []).append(one)
    choices = reckoning.ways.choices(
        (one for told in conditions.values() for one in told),
        {"part": "", **wanted.chosen, **{name: "" for part in parts for name in nb.parts[part].chosen}}, found=False,
    )
    if choices is None:
        open_ = {name: reckoning.ways.values_of(name, told) for name, told in conditions.items()
                 if name not in reckoning.ways.found}
        raise Undecided(open_)
    found = [_reckon(nb, all_ways, reckoning, replace(wanted, chosen={**wanted.chosen, **way})) for way in choices]
    outcomes = [outcome(batch) for batch in found]
    telling = [name for name in choices[0] if _tells(name, choices, outcomes)]
    different: dict[tuple[str, ...], Batch] = {}
    for way, batch in zip(choices, found, strict=True):
        told = {name: way[name] for name in telling}
        different.setdefault(tuple(told.values()), replace(batch, wanted=replace(batch.wanted, way=told)))
    return tuple(different.values())


def _tells(name: str, choices: Sequence[Mapping[str, str]], outcomes: Sequence[object]) -> bool:
    """Whether two choices that differ in this name alone come to different things."""
    met: dict[tuple[str, ...], object] = {}
    for way, outcome in zip(choices, outcomes, strict=True):
        others = tuple(value for key, value in way.items() if key != name)
        if met.setdefault(others, outcome) != outcome:
            return True
    return False


def _chosen_of(nb: Notebook, part: str, chosen: Mapping[str, str]) -> Mapping[str, str]:
    """The variants of a part: what is chosen for the batch, and what the part itself always is."""
    own = {str(name): str(value) for name, value in nb.parts[part].chosen.items()}
    return {**own, **chosen, "part": part} if part == chosen.get("product") else {**chosen, **own, "part": part}


def _reckon(nb: Notebook, all_ways: Mapping[str, tuple[str, ...]], reckoning: Reckoning, wanted: Wanted) -> Batch:
    """What the batch takes in one way.

    The chance is shared evenly between the ways of parts that lose anything: with three of them, each gives enough in
    the cube root of it.
    """
    guards.whole("pieces wanted", wanted.pieces, 1)
    if not 0 < guards.finite("confidence", "share", wanted.confidence) < 1:
        raise Impossible("confidence", "share", wanted.confidence, "must lie between 0 and 1, neither of them")
    parts = _with_all_parts(nb, wanted.product)
    legs: dict[str, tuple[Leg, ...]] = {}
    for part in parts:
        chosen = _chosen_of(nb, part, wanted.chosen)
        legs[part] = tuple(leg_of(nb, reckoning, id_, chosen) for id_ in all_ways.get(part, ())
                           if _holds(nb, id_, chosen))
    losing = sum(loses_any(found) for found in legs.values())
    each = wanted.confidence ** (1 / losing) if losing else wanted.confidence
    needed = {wanted.product: Fraction(wanted.pieces)}
    made: list[PartBatch] = []
    bought: list[tuple[str, int]] = []
    beside: list[tuple[str, int]] = []
    made_here = {str(one) for own in nb.procedures.values() for one in nb.makes_of(own)}
    for part in parts:
        count = ceil(needed.get(part, Fraction(0)))
        if not legs[part]:
            if part in made_here:
                beside.append((part, count))
            elif not nb.parts[part].of and part != wanted.product:
                bought.append((part, count))
            begun = count
        else:
            found = starts(legs[part], count, each)
            made.insert(0, PartBatch(part, count, each, found, tuple(_spent(legs[part], found))))
            begun = found.started
        for one, number in nb.parts[part].of.items():
            ends = span(number)
            if one in nb.parts and ends is not None:
                needed[str(one)] = needed.get(str(one), Fraction(0)) + begun * ends[1]
    faults = tuple(dict.fromkeys(fault for found in legs.values() for leg in found for fault in leg.faults))
    return Batch(wanted, tuple(made), tuple(bought), faults, tuple(beside))


def _holds(nb: Notebook, id_: str, chosen: Mapping[str, str]) -> bool:
    return bool(holding((nb.procedures[id_],), chosen))


def _with_all_parts(nb: Notebook, product: str) -> tuple[str, ...]:
    """The whole and all its parts, each after every whole it goes into; a part that holds itself stands once."""
    order: list[str] = []

    def visit(part: str, above: frozenset[str]) -> None:
        for one in nb.parts[part].of:
            if one in nb.parts and one not in above and str(one) not in order:
                visit(str(one), above | {str(one)})
        order.append(part)

    visit(product, frozenset({product}))
    return tuple(reversed(order))


def _spent(legs: Sequence[Leg], found: Starts) -> Iterator[LegSpent]:
    for leg, pieces, lost in zip(legs, found.coming, found.lost, strict=True):
        lots = lots_of(leg, pieces)
        runs = tuple((run, _how_often(run, pieces, lots)) for run in leg.runs)
        setup, work = _hands(leg, pieces, lots, runs)
        loads = max(ceil(pieces / leg.load), 1) if leg.load else lots
        standing = Span(sum((one.least for one in leg.waits), NONE.least),
                        sum((one.most for one in leg.waits), NONE.most) * loads, True) if leg.waits else NONE
        yield LegSpent(leg, pieces, lost, lots, setup, work, standing, runs)


def _how_often(run: Run, pieces: Fraction, lots: int) -> int:
    return (lots if run.at_start else 0) + (fresh_ones(float(pieces), run.every) if run.every else 0)


def _hands(
    leg: Leg, pieces: Fraction, lots: int, runs: Sequence[tuple[Run, int]]
) -> tuple[Span | None, Span | None]:
    """People's time to set up, and for the work. What is done again makes the greater end."""
    times = leg.times
    if leg.outside or times is None or (times.load != NONE and leg.load is None):
        return None, None
    # set up once, or anew for every lot: which of them it is the notebook does not say
    least = _reckoned(leg, pieces, WorkTime(times.setup.least, times.each.least, times.load.least,
                                            times.lot.least * lots, leg.load))
    again = 1 + leg.rework
    most = _reckoned(leg, pieces, WorkTime(times.setup.most * lots, times.each.most * again, times.load.most,
                                           times.lot.most * lots, leg.load))
    rough = times.setup.rough or times.each.rough or times.load.rough or times.lot.rough
    beside = total(run.each_time * count for run, count in runs if run.each_time is not None)
    return Span(least.setup, most.setup, times.setup.rough), Span(least.work, most.work, rough) + beside


def _reckoned(leg: Leg, pieces: Fraction, time: WorkTime) -> Spent:
    return batch_hours((Work(leg.id, time),), pieces).steps[0]
