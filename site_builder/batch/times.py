"""Work time of a procedure, and of the shared work that is done now and then beside it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import partial, reduce
from operator import or_

from site_builder.batch.faults import BadFigure, holds
from site_builder.batch.span import NONE, Span, total, written_span
from site_builder.batch.variant import holding
from site_builder.formulas import guards
from site_builder.notebook.model.parsed_values import ParsedValue
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.model.small import Time
from site_builder.notebook.notebook import Notebook
from site_builder.quantity import At, Cadence, Each, Every, Quantity, Value, bounds

BY_LOTS = ("lot", "load")


@dataclass(frozen=True, slots=True)
class Times:
    """Seconds of people's time: to set up, for each piece, for each load, for the lot.

    Two people at it for a minute are two minutes. ``gaps`` are the parts of it that are asked for.
    """

    setup: Span = NONE
    each: Span = NONE
    load: Span = NONE
    lot: Span = NONE
    gaps: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Run:
    """Shared work that is done now and then beside the work on each piece: the belt dressed every 40 pieces.

    ``each_time`` is seconds of hands each time; None where the shared work tells no time.
    """

    procedure: str
    step: Step
    at_start: bool
    every: int | None
    each_time: Span | None


def times_of(nb: Notebook, own: Procedure, chosen: Mapping[str, str], faults: list[BadFigure]) -> Times | None:
    """The time of the whole, or else of its steps and of the shared work done for each piece, together."""
    told, hands = holding(own.time, chosen), hands_of(own, chosen)
    if told:
        return _of_times(told, hands, faults)
    steps = holding(own.steps, chosen)
    found = [_of_times(step_told, hands_of(step, chosen) if step.hands else hands, faults) for step in steps
             if (step_told := holding(step.time, chosen))]
    found += [_of_times(used_told, hands_of(used, chosen), faults) for step in steps
              if step.when is None and (used := nb.procedures.get(str(step.use))) is not None
              and (used_told := holding(used.time, chosen))]
    if not found:
        return None
    return Times(
        total(one.setup for one in found), total(one.each for one in found), total(one.load for one in found),
        total(one.lot for one in found), tuple(dict.fromkeys(gap for one in found for gap in one.gaps)),
    )


def about_times(ways: Iterable[Times | None]) -> Times | None:
    """From the least to the most of several ways; what a way does not tell is a gap of the whole."""
    told = list(ways)
    found = [one for one in told if one is not None]
    if not found:
        return None
    gaps = dict.fromkeys(gap for one in found for gap in one.gaps)
    if len(found) < len(told):
        gaps["each"] = None
    setup, each, load, lot = (reduce(or_, spans) for spans in zip(
        *((one.setup, one.each, one.load, one.lot) for one in found), strict=True))
    return Times(setup, each, load, lot, tuple(gaps))


def _of_times(told: Iterable[Time], hands: int, faults: list[BadFigure]) -> Times:
    """Where several hold, the span about them counts. ``hands`` people are at it at once."""
    spans: dict[str, Span] = {}
    gaps: dict[str, None] = {}
    for time in told:
        for name in ("setup", "each", "load", "lot"):
            leaf = getattr(time, name)
            span = written_span(leaf, "time")
            guard = partial(guards.not_negative, "time", "s", float(span.least) if span is not None else 0.0)
            if leaf is not None and not holds(faults, leaf.at, guard):
                gaps[name] = None
            elif span is not None:
                spans[name] = spans[name] | span * hands if name in spans else span * hands
            elif leaf is not None:
                gaps[name] = None
    return Times(**spans, gaps=tuple(gaps))


def hands_of(work: Work, chosen: Mapping[str, str] | None = None) -> int:
    """How many people are at it at once; the most where it depends."""
    held = holding(work.hands, chosen or {})
    counts = [span for hands in held if (span := written_span(hands.count, "count")) is not None]
    return max((int(span.most) for span in counts), default=1) or 1


def runs_of(
    nb: Notebook, own: Procedure, chosen: Mapping[str, str], faults: list[BadFigure] | None = None
) -> Iterator[Run]:
    """The steps that do shared work after a count of pieces, or once at the start."""
    faults = faults if faults is not None else []
    for step in holding(own.steps, chosen):
        used = nb.procedures.get(str(step.use)) if step.use is not None else None
        if used is None or not isinstance(step.when, ParsedValue) or not isinstance(step.when.value, Cadence):
            continue
        items = step.when.value.items
        every = next((count for item in items if (count := _pieces_between(item)) is not None), None)
        at_start = any(isinstance(item, At) or (isinstance(item, Each) and item.noun in BY_LOTS) for item in items)
        if every is not None or at_start:
            yield Run(str(step.use), step, at_start, every, _each_time(used, step, chosen, faults))


def _pieces_between(item: object) -> int | None:
    amount = item.amount if isinstance(item, Every) else None
    found = bounds(Value(amount)) if isinstance(amount, Quantity) else None
    if found is None or found.unit.symbol != "piece" or found.aim_low is None or found.aim_low < 1:
        return None
    return int(found.aim_low)


def _each_time(
    used: Procedure, step: Step, chosen: Mapping[str, str], faults: list[BadFigure]
) -> Span | None:
    """What the hands do each time. Work on each piece is in the time of the piece: the mop charged in between."""
    told = holding(used.time, chosen)
    times = _of_times(told, hands_of(used, chosen), faults) if told else None
    if times is None or not (step.per in BY_LOTS or times.lot != NONE or times.load != NONE):
        return None
    return times.setup + times.each + times.load + times.lot
