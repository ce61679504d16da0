"""What the coming batch takes, told on the page of each part, procedure, material and tool, and of each order."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.batch.batch import Batch, Undecided
from site_builder.batch.leg import leg_of
from site_builder.batch.used_up import used_up
from site_builder.figures.batch_hours import BatchSaid
from site_builder.figures.batch_orders import calendar_of, coming
from site_builder.figures.batch_starts import first_time, missing_yields, start_figure
from site_builder.figures.batch_used import material_figures, tool_figures
from site_builder.figures.figure import Fault, Figure, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.formulas.errors import Impossible


def batch_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of time and yield. Where nothing is ordered it is silent: `benchlore batch N` tells any batch."""
    nb = known.notebook
    shown = coming(known)
    yield from _faults_elsewhere(known)
    for id_, batch in _each_batch(known):
        order = nb.orders[id_]
        if isinstance(batch, Undecided):
            at = order.at
            open_ = ", ".join(f"{name}: {values[0]}" for name, values in batch.open.items())
            yield Missing("order", id_, "What it takes: it can be made in too many ways, and none is chosen.",
                          f"chosen: {{{open_}}}", at)
            continue
        if isinstance(batch, Impossible):
            yield Fault(order.pieces.at if order.pieces is not None else order.at, str(batch))
            continue
        said = BatchSaid(nb, batch, id_, str(order.title), calendar_of(nb, order), known.today)
        used = used_up(nb, known.reckoning, batch)
        yield from (Fault(one.at, one.message) for one in (*batch.faults, *used.faults))
        yield from said.of_order()
        if id_ != shown:
            continue
        for part in batch.parts:
            yield start_figure(said, part)
            yield from first_time(said, part)
            yield from said.of_part(part)
            yield from missing_yields(said, part)
            for spent in part.legs:
                yield from said.of_procedure(spent)
        yield from material_figures(said, used)
        yield from tool_figures(said, used)


def _each_batch(known: FigureInputs) -> Iterator[tuple[str, Batch | Impossible]]:
    for id_, batches in known.batches.items():
        yield from ((id_, one) for one in ((batches,) if isinstance(batches, Impossible) else batches))


def _faults_elsewhere(known: FigureInputs) -> Iterator[Fault]:
    """What no work can have, in procedures that no order comes to."""
    met = {spent.leg.id for _, batch in _each_batch(known) if isinstance(batch, Batch) for spent in batch.legs}
    for id_, own in known.notebook.procedures.items():
        if id_ not in met and (own.yield_ or own.time or own.load):
            leg = leg_of(known.notebook, known.reckoning, id_, {})
            yield from (Fault(one.at, one.message) for one in leg.faults)
