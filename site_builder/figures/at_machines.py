"""Which work stands at which machine, for how much of its time, and how long a working day is."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from site_builder.figures.batch_words import NO_BREAK, working_week
from site_builder.figures.figure import Input
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import Given, given_here, limits_by_name, once, property_of, time_each
from site_builder.formulas.errors import Impossible
from site_builder.formulas.interval import Interval
from site_builder.notebook.model.things import Tool

RUNNING_TIME = "running time"
"""A setting: how long, of the time for one piece, the machine runs or the hands are on it."""
EXPOSURES: Mapping[str, str] = {"noise": "dB(A)", "vibration": "m/s²"}
"""Properties of machines that tell what they do to people, and the unit in which each is reckoned."""

DECIDES = "Local law and a qualified person decide, and only measuring tells what it really is."
"""The caution of every figure about people."""


class Shift(NamedTuple):
    """A working day: its hours, and the line that tells them."""

    hours: float
    input: Input


class AtMachine(NamedTuple):
    """Work at a machine: what it does to people, and the share of the time (0 to 1) in which it does."""

    procedure: str
    tool: str
    given: Given
    share: Interval
    inputs: tuple[Input, ...]
    """All that it rests on, the exposure itself first."""


def shift_of(known: FigureInputs) -> Shift:
    """The day of the shop's calendar; eight hours where it tells none."""
    calendar = known.notebook.shop.calendar if known.notebook.shop is not None else None
    a_day, _, _ = working_week(calendar)
    told = calendar is not None and calendar.hours is not None
    written = f"{float(a_day):g}{NO_BREAK}h a day"
    at = calendar.at if calendar is not None and told else None
    return Shift(float(a_day), Input("working day", written if told else f"assumed: {written}", at=at))


def levels_of(known: FigureInputs, name: str) -> Mapping[str, Given]:
    """Tools and machines that tell this exposure, each with what it tells; members of a group with the group's."""
    return {id_: given for id_, given in _told(known, name).items() if given.unit.symbol == EXPOSURES[name]}


def unweighted(known: FigureInputs) -> Mapping[str, Given]:
    """Tools and machines whose noise is a sound level, and not one in dB(A)."""
    return {id_: given for id_, given in _told(known, "noise").items()
            if given.unit.kind == "sound level" and given.unit.symbol != EXPOSURES["noise"]}


def _told(known: FigureInputs, name: str) -> Mapping[str, Given]:
    found: dict[str, Given] = {}
    for _, place in limits_by_name(known).get(name, ()):
        if place.key == "properties" and isinstance(place.owner, Tool):
            for id_ in (place.owner_id, *map(str, place.owner.members)):
                given = property_of(known, id_, name)
                if given is not None:
                    found.setdefault(id_, given)
    return found


@once
def _by_work(known: FigureInputs) -> Mapping[str, Mapping[str, tuple[tuple[str, Given], ...]]]:
    return {name: _of_works(known, levels_of(known, name)) for name in EXPOSURES}


def at_machines(known: FigureInputs, name: str) -> Mapping[str, tuple[tuple[str, Given], ...]]:
    """Procedures with the machines they use that tell this exposure, the strongest first."""
    return _by_work(known)[name]


def _of_works(known: FigureInputs, levels: Mapping[str, Given]) -> Mapping[str, tuple[tuple[str, Given], ...]]:
    found: dict[str, dict[str, Given]] = {}
    for id_, given in levels.items():
        todo = [link.place for link in known.references.used_in("tool", id_) if link.key == "tool"]
        for place in todo:
            if place.procedure is None:
                continue
            found.setdefault(place.owner_id, {})[id_] = given
            # work that is used for each piece counts like work of one's own; what is done now and then does not
            for link in known.references.used_in("procedure", place.owner_id):
                step = link.place.step
                if link.key == "use" and step is not None and step.when is None and link.place.procedure is not None:
                    found.setdefault(link.place.owner_id, {})[id_] = given
    return {
        id_: tuple(sorted(found[id_].items(), key=lambda one: -one[1].span.high))
        for id_ in known.notebook.procedures if id_ in found and not _is_within(known, id_)
    }


def _is_within(known: FigureInputs, id_: str) -> bool:
    """Whether it is done only within other work, never for a day."""
    return any(link.key == "use" for link in known.references.used_in("procedure", id_))


def strongest(known: FigureInputs, procedure: str, name: str) -> AtMachine | None:
    """The machine of a procedure that does most of it, as if one stood at that one only.

    Raises ``Impossible`` where it runs longer for a piece than a piece takes.
    """
    found = at_machines(known, name).get(procedure, ())
    if not found:
        return None
    tool, given = found[0]
    share, inputs = _share(known, procedure, tool)
    return AtMachine(procedure, tool, given, share, (given.input, *inputs))


def _share(known: FigureInputs, procedure: str, tool: str) -> tuple[Interval, tuple[Input, ...]]:
    runs = [given for set_on, given in _running(known).get(procedure, ())
            if set_on in ("", tool) and given.unit.kind == "time"]
    if not runs:
        return Interval(1, 1), ()
    own = known.notebook.procedures[procedure]
    takes = time_each(known, own)
    if takes is None or takes.span.low <= 0:
        return Interval(1, 1), ()
    low, high = sum(one.span.low for one in runs), sum(one.span.high for one in runs)
    if low > takes.span.high:
        raise Impossible(RUNNING_TIME, "s", low, f"must fit into the time for one piece, {takes.input.written}")
    share = Interval(max(low, 0.0) / takes.span.high, min(high / takes.span.low, 1.0))
    return share, (*(one.input for one in runs), takes.input)


def running_inputs(known: FigureInputs, procedure: str) -> list[Input]:
    """The lines that tell how long its machines run."""
    return [given.input for _, given in _running(known).get(procedure, ())]


@once
def _running(known: FigureInputs) -> Mapping[str, list[tuple[str, Given]]]:
    """Of each procedure the running times it sets, each with the machine it is set for, empty for any."""
    found: dict[str, list[tuple[str, Given]]] = {}
    for limit, place in limits_by_name(known).get(RUNNING_TIME, ()):
        if place.procedure is not None and place.key == "settings" and limit.written is not None:
            given = given_here(known, limit.written, RUNNING_TIME, "procedure", place.owner_id, place.step)
            if given is not None:
                found.setdefault(place.owner_id, []).append((str(limit.tool or ""), given))
    return found
