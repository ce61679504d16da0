"""What a batch uses up: materials by their amounts, and tools that are changed after a count."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from site_builder.batch.amounts import Amount, amount_of
from site_builder.batch.batch import Batch, LegSpent
from site_builder.batch.faults import BadFigure, holds
from site_builder.batch.span import Span, total, written_span
from site_builder.batch.variant import holding
from site_builder.formulas import guards
from site_builder.formulas.used_up import fresh_ones, material_used
from site_builder.notebook.gather import tool_uses, used_procedures
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Procedure, Work
from site_builder.notebook.model.small import MaterialUse
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.references import all_steps
from site_builder.quantity import Unit, same_dimensions


@dataclass(frozen=True, slots=True)
class Taken:
    """What one procedure takes of a material: the amount in base units, and the line that says it."""

    procedure: str
    use: MaterialUse
    amount: Span


@dataclass(frozen=True, slots=True)
class Material:
    """A material of the batch, in base units of ``unit``; ``takers`` are the procedures that take it."""

    id: str
    unit: Unit
    takers: tuple[Taken, ...]

    @property
    def amount(self) -> Span:
        """All of it together."""
        return total(taken.amount for taken in self.takers)


@dataclass(frozen=True, slots=True)
class Renewed:
    """A tool, or a strip of paper, that is changed after a count: ``least`` to ``most`` new ones are begun.

    The least if the one in use is new at the start of the batch and a piece that it meets in several procedures
    counts once, the most if it is at its end and every procedure counts. ``work`` is how much it does in what
    ``life`` counts, likewise.
    """

    id: str
    life: Written
    work: Span
    least: int
    most: int
    procedures: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class UsedUp:
    """``untold`` are pairs (material, procedure) whose amount nobody tells, ``faults`` amounts that cannot be."""

    materials: tuple[Material, ...]
    renewed: tuple[Renewed, ...]
    untold: tuple[tuple[str, str], ...]
    faults: tuple[BadFigure, ...] = ()


def used_up(nb: Notebook, batch: Batch) -> UsedUp:
    """Materials in the order of the work, one row for each unit kind; then what wears out."""
    found: dict[str, list[Material]] = {}
    untold: dict[tuple[str, str], None] = {}
    faults: list[BadFigure] = []
    for spent in batch.legs:
        for id_, uses in _uses(nb, spent.leg.procedure, batch.wanted.chosen).items():
            uses = [pair for pair in uses if _can_be(pair[0], faults)]
            told = [(taken, unit) for use, work in uses if (scaled := _scaled(spent, use, work)) is not None
                    for taken, unit in (scaled,)]
            for taken, unit in told:
                _add(found.setdefault(id_, []), id_, taken, unit)
            if not told and not _by_life(nb, id_):
                untold[id_, spent.leg.id] = None
    told_pairs = {(row.id, taken.procedure) for rows in found.values() for row in rows for taken in row.takers}
    return UsedUp(
        tuple(one for list_ in found.values() for one in list_), tuple(_renewed(nb, batch, told_pairs)), tuple(untold),
        tuple(dict.fromkeys(faults)),
    )


def _can_be(use: MaterialUse, faults: list[BadFigure]) -> bool:
    amount = amount_of(use.amount)
    if amount is None or use.amount is None:
        return True
    least, count = float(amount.span.least), float(amount.per_count)
    return holds(faults, use.amount.at, lambda: (guards.not_negative("amount", "", least),
                                                 guards.above_zero("pieces it is for", "", count)))


def _add(rows: list[Material], id_: str, taken: Taken, unit: Unit) -> None:
    for n, row in enumerate(rows):
        if same_dimensions(row.unit, unit):
            rows[n] = Material(id_, row.unit, (*row.takers, taken))
            return
    rows.append(Material(id_, unit, (taken,)))


def _uses(nb: Notebook, own: Procedure, chosen: Mapping[str, str]) -> dict[str, list[tuple[MaterialUse, Work]]]:
    """The uses that count for each material: what the whole tells, or else its steps, or else the shared work."""
    rings: tuple[Iterable[Work], ...] = (
        (own,), all_steps(own), [work for used in used_procedures(nb, own) for work in (used, *all_steps(used))],
    )
    found: dict[str, list[tuple[MaterialUse, Work]]] = {}
    for ring in rings:
        here: dict[str, list[tuple[MaterialUse, Work]]] = {}
        for work in ring:
            for use in holding(work.materials, chosen):
                if use.material in nb.materials:
                    here.setdefault(str(use.material), []).append((use, work))
        for id_, uses in here.items():
            told = [pair for pair in uses if pair[0].amount is not None]
            if id_ not in found or (told and all(use.amount is None for use, _ in found[id_])):
                found[id_] = told or uses
    return found


def _scaled(spent: LegSpent, use: MaterialUse, work: Work) -> tuple[Taken, Unit] | None:
    """The amount for the whole batch; None where it is not told for what."""
    amount = amount_of(use.amount)
    if amount is None:
        return None
    times = _times(spent, amount, work)
    if times is None:
        return None
    least, most = (material_used(float(count / amount.per_count), float(each)) for count, each in
                   zip(times, (amount.span.least, amount.span.most), strict=True))
    rough = amount.span.rough or amount.span.least != amount.span.most
    return Taken(spent.leg.id, use, Span(Fraction(least), Fraction(most), rough)), amount.unit


def _times(spent: LegSpent, amount: Amount, work: Work) -> tuple[Fraction, Fraction] | None:
    """How often the amount is taken, at least and at most."""
    runs = [count for run, count in spent.runs if isinstance(work, Procedure) and run.procedure == work.procedure]
    if amount.per is None:
        return None
    if amount.noun == "piece":
        return spent.pieces, spent.pieces
    if amount.noun in ("lot", "load"):
        loads = ceil(spent.pieces / spent.leg.load) if spent.leg.load and amount.noun == "load" else spent.lots
        count = Fraction(sum(runs) or loads)
        return count, count
    if amount.noun in ("order", "batch"):
        return Fraction(1), Fraction(1)
    if amount.per.kind == "time":
        return spent.hands.least / amount.per.factor, spent.hands.most / amount.per.factor
    return None


# --- what wears out -----------------------------------------------------------------------------------


def _by_life(nb: Notebook, id_: str) -> bool:
    return any(_counts(nb, id_))


def _counts(nb: Notebook, id_: str) -> Iterator[Written]:
    """The counts of pieces or loads after which a thing is changed."""
    for end in nb.things[id_].life:
        for limit in end.count:
            leaf = limit.written
            amount = amount_of(leaf)
            if leaf is not None and amount is not None and amount.unit.symbol in ("piece", "load"):
                yield leaf


def _renewed(nb: Notebook, batch: Batch, told: Container[tuple[str, str]]) -> Iterator[Renewed]:
    """``told`` are the pairs (material, procedure) with an amount: these are not counted a second time."""
    found: dict[str, list[tuple[str, LegSpent]]] = {}
    for part in batch.parts:
        for spent in part.legs:
            own = spent.leg.procedure
            ids = [str(use.tool) for use in tool_uses(nb, own)]
            ids += [id_ for id_ in _uses(nb, own, batch.wanted.chosen) if (id_, spent.leg.id) not in told]
            for id_ in dict.fromkeys(ids):
                if id_ in nb.things and nb.things[id_].life:
                    found.setdefault(id_, []).append((part.part, spent))
    for id_, met in found.items():
        for leaf in _counts(nb, id_):
            life, amount = written_span(leaf, "count"), amount_of(leaf)
            if life is not None and amount is not None and life.least >= 1:
                work = _work(met, amount.unit.symbol)
                yield Renewed(
                    id_, leaf, work, fresh_ones(float(work.least), float(life.most)),
                    fresh_ones(float(work.most), float(life.least), float(life.least)),
                    tuple(dict.fromkeys(spent.leg.id for _, spent in met)),
                )


def _work(met: Iterable[tuple[str, LegSpent]], noun: str) -> Span:
    once: dict[str, Fraction] = {}
    every = Fraction(0)
    for part, spent in met:
        loads = Fraction(ceil(spent.pieces / spent.leg.load)) if spent.leg.load else Fraction(0)
        count = spent.pieces if noun == "piece" else loads
        once[part] = max(once.get(part, Fraction(0)), count)
        every += count
    return Span(sum(once.values(), Fraction(0)), every)
