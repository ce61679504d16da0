"""How many pieces to start, and how many go right at the first try."""

from __future__ import annotations

from collections.abc import Iterator

from site_builder.batch.batch import PartBatch
from site_builder.figures.batch_said import Said
from site_builder.figures.batch_words import NO_BREAK, percent
from site_builder.figures.figure import Figure, Input, Missing

RUNS_OF_BAD_LUCK = ("Each piece is taken to be lost by itself. A bad melt or a wrong mix takes many at once; against "
                    "that only more metal and an early look help.")


def start_figure(said: Said, part: PartBatch, kind: str = "part", id_: str = "") -> Figure:
    """How many to start so that enough come out."""
    starts, wanted = part.starts, said.batch.wanted
    start = f"{starts.started:,}"
    if starts.started == part.wanted:
        sentence = f"{said.lead} start {start} pieces: by what is written, none is lost on this way."
    elif part.part == wanted.product:
        sentence = (f"{said.lead} put {start} together, so that with a chance of {percent(wanted.confidence)}, all "
                    f"parts counted, {said.whole} leave the shop; on average {int(starts.good):,} do.")
        if not said.nb.parts[part.part].of:
            sentence = sentence.replace(f"put {start} together", f"start {start} pieces").replace(
                ", all parts counted,", "")
    else:
        sentence = (f"{said.lead} start {start} pieces, so that with a chance of {percent(part.confidence)} the "
                    f"{part.wanted:,} that are put together come out; on average {int(starts.good):,} do.")
    inputs = [said.ordered(), *_losses(said, part),
              Input("chance of enough", f"assumed: {percent(wanted.confidence)} for the whole batch")]
    untold = [spent.leg.id for spent in part.legs if spent.leg.scrap is None]
    caution = RUNS_OF_BAD_LUCK
    if untold:
        caution = f"What is lost in {said.procedures(untold)} is not told and not counted. {caution}"
    return Figure(
        kind, id_ or part.part, sentence, tuple(inputs), "the sample size of the negative binomial distribution",
        "Johnson, Kemp and Kotz, Univariate Discrete Distributions", caution,
    )


def first_time(said: Said, part: PartBatch) -> Iterator[Figure]:
    """Rolled throughput yield, where any loss is told."""
    told = [spent for spent in part.legs if spent.leg.scrap is not None or spent.leg.rework]
    if len(told) < 2:
        return
    inputs = [said.of_leg(spent, name, leaf) for spent in told for told_yield in spent.leg.procedure.yield_
              for name, leaf in (("lost", told_yield.scrap), ("done again", told_yield.rework)) if leaf is not None]
    about = "at most" if len(told) < len(part.legs) else "about"
    yield Figure(
        "part", part.part,
        f"Of 100 begun {about} {round(part.starts.right_first * 100)} go right in every procedure at the first try. "
        "The others are lost, or made good on the way.",
        tuple(inputs), "rolled throughput yield",
        "the shares that go right multiplied, as quality handbooks define it",
    )


def missing_yields(said: Said, part: PartBatch) -> Iterator[Missing]:
    """A procedure of this way that does not tell its losses."""
    for spent in part.legs:
        if spent.leg.scrap is None and not spent.leg.faults:
            yield Missing(
                "procedure", spent.leg.id,
                f"How many pieces to start so that {said.whole} come out: what is lost here is not told.",
                "yield: {scrap: 4 %}", spent.leg.procedure.at,
            )


def _losses(said: Said, part: PartBatch) -> Iterator[Input]:
    for spent in part.legs:
        for told in spent.leg.procedure.yield_:
            if told.scrap is not None:
                yield said.of_leg(spent, "lost", told.scrap)
        for fixed in spent.leg.fixed:
            often = f" for each of {spent.lots}{NO_BREAK}lots" if spent.lots > 1 and fixed.every is None else ""
            yield said.of_leg(spent, fixed.what + often, fixed.written, fixed.step)
