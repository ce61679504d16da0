"""Lifts that a step declares, by the revised NIOSH equation.

A step declares a lift in its settings or conditions: ``lift: 12 kg``, with ``reach`` (how far the hands are before
the ankles), ``height`` (of the hands over the floor, ``from 20 to 75 cm``), and where they differ from the usual
``twist`` (``30 ° angle``) and ``time between lifts``.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial
from typing import NamedTuple

from site_builder.batch.times import BY_LOTS
from site_builder.figures.amounts import about, between, mass
from site_builder.figures.at_machines import DECIDES, Shift, shift_of
from site_builder.figures.batch_words import NO_BREAK
from site_builder.figures.figure import Fault, Figure, Input, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, given_of, guarded, limits_by_name, once, time_each
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval
from site_builder.notebook.finding import At
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.procedure import Procedure, Step, Work
from site_builder.notebook.tree import Text
from site_builder.quantity import Sweep
from site_builder.safety.lifting import Hands, Lift, lifting_index, multipliers, recommended_weight, worse_end
from site_builder.safety.lifting_tables import FEWEST
from site_builder.safety.verdict import LIFTING, Verdict, verdict

LIFT, REACH, HEIGHT, TWIST, BETWEEN = "lift", "reach", "height", "twist", "time between lifts"
_SOURCE = "NIOSH 94-110, Applications manual for the revised NIOSH lifting equation"
_CAUTION = ("It holds for two hands, standing, on a floor that grips; not for carrying, for molten metal, nor for "
            f"people under age, pregnant or with a hurt back. {DECIDES}")
_WORST = {
    "reach": "how far it is from the body",
    "height": "how low or high the hands are",
    "travel": "how far up or down it goes",
    "twist": "the twist of the body",
    "frequency": "how often it is done",
    "coupling": "how it is held",
}


class Lifted(NamedTuple):
    """A lift with all that is told of it; without ``reach`` and ``height`` nothing can be reckoned."""

    procedure: Procedure
    step: Step | None
    load: Given
    reach: Given | None
    height: Given | None
    sweep: bool
    twist: Given | None
    between: Given | None
    """Time from one lift to the next, as set, or the time for one piece."""
    at: At


class Judged(NamedTuple):
    """Index and recommended weight (kg), each at least and at most, and what takes most away."""

    lifting_index: Interval
    recommended: Interval
    worst: str

    @property
    def verdict(self) -> Verdict:
        """Where the lift stands, at the most it may be."""
        return verdict(LIFTING, self.lifting_index.high)


@once
def lifts(known: FigureInputs) -> tuple[Lifted, ...]:
    """Every lift that a step or a procedure declares."""
    return tuple(_lifts(known))


def _lifts(known: FigureInputs) -> Iterator[Lifted]:
    for limit, place in limits_by_name(known).get(LIFT, ()):
        own = place.procedure
        if own is None or place.key not in ("settings", "conditions"):
            continue
        work = place.step or own
        load = _told(known, (limit,), LIFT, place)
        if load is None or load.unit.kind != "mass":
            continue
        heights = _limits(work, own, HEIGHT)
        height = _length(_told(known, heights, HEIGHT, place))
        sweep = any(one.written is not None and isinstance(one.written.value.what, Sweep) for one in heights)
        reach = _length(_told(known, _limits(work, own, REACH), REACH, place))
        twist = _told(known, _limits(work, own, TWIST), TWIST, place)
        twist = twist if twist is not None and twist.unit.kind == "angle" else None
        yield Lifted(own, place.step, load, reach, height, sweep, twist, _between(known, own, place), limit.at)


def _limits(work: Work, own: Procedure, name: str) -> tuple[Limit, ...]:
    for one in (work, own):
        for group in (one.settings, one.conditions):
            if Text(name) in group:
                return tuple(group[Text(name)])
    return ()


def _told(known: FigureInputs, limits: Iterable[Limit], name: str, place: Place) -> Given | None:
    return given_of(known, limits, name, "procedure", place.owner_id, step=place.step)


def _length(given: Given | None) -> Given | None:
    return given if given is not None and given.unit.kind == "length" else None


def _between(known: FigureInputs, own: Procedure, place: Place) -> Given | None:
    told = _told(known, _limits(place.step or own, own, BETWEEN), BETWEEN, place)
    if told is not None:
        return told if told.unit.kind == "time" else None
    now_and_then = place.step is not None and (place.step.when is not None or place.step.per in BY_LOTS)
    return None if now_and_then or own.per in BY_LOTS else time_each(known, own)


def judged(one: Lifted, shift: Shift) -> Judged | None:
    """The lift at the corners of what is told; None where reach or height is not. Raises ``Impossible``."""
    if one.reach is None or one.height is None:
        return None
    twist = one.twist.span if one.twist is not None else Interval(0, 0)
    low, high = one.height.span.low, one.height.span.high
    ways = ((low, high), (high, low)) if one.sweep else ((low, low), (high, high))
    found = [
        Lift(load, Hands(reach * 100, begins * 100, turned), Hands(reach * 100, ends * 100, turned), _rate(one),
             "long" if shift.hours > 2 else "moderate" if shift.hours > 1 else "short", careful_end=True)
        for load in _ends(one.load.span) for reach in _ends(one.reach.span) for turned in _ends(twist)
        for begins, ends in ways
    ]
    indices = [lifting_index(lift) for lift in found]
    weights = [recommended_weight(lift) for lift in found]
    heaviest = found[indices.index(max(indices))]
    return Judged(Interval(min(indices), max(indices)), Interval(min(weights), max(weights)),
                  multipliers(heaviest, worse_end(heaviest)).worst)


def _ends(span: Interval) -> tuple[float, ...]:
    return tuple(dict.fromkeys((span.low, span.high)))


def _rate(one: Lifted) -> float:
    """Lifts a minute, at the quickest that is told."""
    if one.between is None:
        return FEWEST
    if one.between.span.low <= 0:
        raise Impossible(BETWEEN, "s", one.between.span.low, "must be more than 0")
    return 60 / one.between.span.low


def lift_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of lifts: each where it is declared."""
    shift = shift_of(known)
    for one in lifts(known):
        told = (one.load, one.reach, one.height, one.twist, one.between)
        inputs = [given.input for given in told if given is not None]
        if one.reach is None or one.height is None:
            lines = [line for given, line in ((one.reach, "reach: 40 cm"), (one.height, "height: from 20 to 75 cm"))
                     if given is None]
            yield Missing("procedure", str(one.procedure.procedure),
                          f"Whether a lift of {one.load.input.written} is too heavy as it is done here.",
                          "settings: {" + ", ".join(lines) + "}", one.at, one.step)
            continue
        yield from guarded(partial(_said, one, shift, inputs), inputs)


def _said(one: Lifted, shift: Shift, inputs: list[Input]) -> Iterator[Figure]:
    found = judged(one, shift)
    if found is None:
        return
    is_inch = one.load.is_inch
    if found.recommended.high <= 0:
        sentence = f"{_load(one)} should not be lifted so at all: {_WORST.get(found.worst, 'it is out of reach')}."
    else:
        weight = mass(found.recommended, is_inch, 2)
        index = about(between(found.lifting_index.low, found.lifting_index.high, 2), one.load.rough)
        sentence = (f"{_load(one)} lifted so has a lifting index of {index}: as it is done here {weight} is what is "
                    f"recommended. {index_words(found)}")
        if found.worst:
            sentence += f" Most is taken away by {_WORST[found.worst]}."
    often = Input("how often", f"assumed: once in {1 / FEWEST:g}{NO_BREAK}min or less") if one.between is None else None
    held = Input("hold and end", "assumed: fair hold without handles, put down with care")
    lasts = Input("lifting goes on", f"all the working day, {shift.hours:g}{NO_BREAK}h", at=shift.input.at)
    yield Figure("procedure", str(one.procedure.procedure), sentence,
                 (*inputs, *([often] if often else []), held, lasts), "revised NIOSH lifting equation", _SOURCE,
                 _CAUTION, one.step)


def _load(one: Lifted) -> str:
    return about(mass(one.load.span, one.load.is_inch, 2 if one.load.rough else 3), one.load.rough).capitalize()


def index_words(found: Judged) -> str:
    """What the index means."""
    if found.lifting_index.high < 1:
        return "Under 1 is what work is designed for."
    if found.lifting_index.high < 3:
        return "From 1 on the risk of a hurt back rises; over 3 nearly everybody is at risk."
    return "From 3 on nearly everybody is at risk of a hurt back."
