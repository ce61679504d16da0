"""Tools and strips of paper that a batch wears out, as their life by count tells."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from site_builder.batch.amounts import amount_of
from site_builder.batch.batch import Batch, LegSpent
from site_builder.batch.span import Span, written_span
from site_builder.batch.variant import holding, works_holding
from site_builder.formulas.used_up import fresh_ones
from site_builder.notebook.gather import named_things
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.procedure import Procedure, Work
from site_builder.notebook.model.small import MaterialUse
from site_builder.notebook.notebook import Notebook


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


def material_uses(nb: Notebook, own: Procedure, chosen: Mapping[str, str]) -> dict[str, list[tuple[MaterialUse, Work]]]:
    """The uses that count for each material: what the whole tells, or else its steps, or else the shared work."""
    found: dict[str, list[tuple[MaterialUse, Work]]] = {}
    for ring in works_holding(nb, own, chosen):
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


def by_life(nb: Notebook, id_: str) -> bool:
    return any(_counts(nb, id_))


def _counts(nb: Notebook, id_: str) -> Iterator[Written]:
    """The counts of pieces or loads after which a thing is changed."""
    for end in nb.things[id_].life:
        for limit in end.count:
            leaf = limit.written
            amount = amount_of(leaf)
            if leaf is not None and amount is not None and amount.unit.symbol in ("piece", "load"):
                yield leaf


def renewed(nb: Notebook, batch: Batch, told: Container[tuple[str, str]]) -> Iterator[Renewed]:
    """``told`` are the pairs (material, procedure) with an amount: these are not counted a second time."""
    found: dict[str, list[tuple[str, LegSpent]]] = {}
    for part in batch.parts:
        chosen = batch.chosen_of(nb, part.part)
        for spent in part.legs:
            own = spent.leg.procedure
            ids = [id_ for ring in works_holding(nb, own, chosen) for work in ring for id_ in _tools(work, chosen)]
            ids += [id_ for id_ in material_uses(nb, own, chosen) if (id_, spent.leg.id) not in told]
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


def _tools(work: Work, chosen: Mapping[str, str]) -> Iterator[str]:
    """The tools and gauges of a piece of work; not those of another variant, nor its materials."""
    other = {str(use.tool) for use in work.tools} - {str(use.tool) for use in holding(work.tools, chosen)}
    other |= {str(use.material) for use in work.materials}
    yield from (id_ for id_ in named_things(work) if id_ not in other)


def _work(met: Iterable[tuple[str, LegSpent]], noun: str) -> Span:
    once: dict[str, Fraction] = {}
    every = Fraction(0)
    for part, spent in met:
        loads = Fraction(ceil(spent.pieces / spent.leg.load)) if spent.leg.load else Fraction(0)
        count = spent.pieces if noun == "piece" else loads
        once[part] = max(once.get(part, Fraction(0)), count)
        every += count
    return Span(sum(once.values(), Fraction(0)), every)
