"""Plating as measured: the readings of a thickness held against what was ordered, and against its class."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from site_builder.figures.amounts import both, figure, percent_of
from site_builder.figures.batch_words import NO_BREAK
from site_builder.figures.figure import Figure, Input
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import once
from site_builder.figures.plating_orders import METALS, classes
from site_builder.figures.readings import Readings, all_readings
from site_builder.formulas.interval import Interval
from site_builder.formulas.plating_classes import PlatingClass
from site_builder.notebook.finding import At
from site_builder.notebook.names import NamedValue
from site_builder.skills.readings import guides

_SLACK = 1 - 1e-9
"""Figures of a book are decimal; what is met to the last digit is met."""

_MANY = 10
"""From so many readings on a share says more than a count."""


class Wanted(NamedTuple):
    """A least thickness (m) that readings are held against, in the words of who asks for it."""

    least: float
    who: str
    """``ordered`` or the class as it is named."""
    input: Input
    source: str


class Plated(NamedTuple):
    """A thickness of one metal that was measured, and what was wanted of it."""

    named: NamedValue
    metal: str
    read: Readings
    wanted: tuple[Wanted, ...]
    is_inch: bool


@once
def plated(known: FigureInputs) -> tuple[Plated, ...]:
    """Every plated thickness with readings in the book, as far as somebody asks for a least one."""
    found = []
    for named, read in all_readings(known):
        metal = named.name.split(" ")[0].lower()
        if named.kind != "procedure" or metal not in METALS or not read.figures:
            continue
        asked = known.reckoning.widest((named,))
        if asked is not None and asked.kind != "length":
            continue
        wanted = tuple(_wanted(known, named, metal, read))
        if wanted:
            found.append(Plated(named, metal, read, wanted, asked is not None and asked.unit.system == "inch"))
    return tuple(found)


def _wanted(known: FigureInputs, named: NamedValue, metal: str, read: Readings) -> Iterator[Wanted]:
    limit = named.limits[0]
    least = _ordered(known, named, read)
    if least is not None:
        told = Input("ordered", str(limit.written or ""), "procedure", named.owner_id, named.step, limit.at)
        yield Wanted(float(least), "ordered", told, "")
    # A check takes its limit over from the order; the class stands beside the order.
    namings = known.reckoning.of_value.get(id(limit.written), ()) if limit.written is not None else ()
    owners = {named.owner_id, *(hit.owner_id for naming in namings for hit in naming.hits)}
    for place, words, found, at in classes(known):
        if isinstance(found, PlatingClass) and found.metal == metal and place.owner_id in owners:
            told = Input("class", words, "procedure", place.owner_id, place.step, at)
            yield Wanted(found.least, words, told, found.source)


def _ordered(known: FigureInputs, named: NamedValue, read: Readings) -> Fraction | None:
    """The least thickness (m) that was ordered of what was measured last; None where the variant leaves it open."""
    cases = known.judge.cases_of(read.entry, named)
    least = {case.figures.low if case.figures is not None else None for case in cases}
    return least.pop() if len(least) == 1 and not guides(named) else None


def plated_figures(known: FigureInputs) -> Iterator[Figure]:
    """What was measured, on the page of the work at which it was measured."""
    for one in plated(known):
        yield Figure(
            "procedure", one.named.owner_id, _sentence(one), (one.read.input, *(want.input for want in one.wanted)),
            "thickness as measured", _sources(one), "A least thickness holds for every point of the face that matters, "
            "and not for the average. A few readings do not speak for the whole lot.", one.named.step,
        )


def _sentence(one: Plated) -> str:
    figures = one.read.figures
    scale = 2.54e-5 if one.is_inch else 1e-6
    span = both(Interval(min(figures), max(figures)), "µm", "mil", one.is_inch)
    mean = f"{figure(sum(figures) / len(figures) / scale)}{NO_BREAK}{'mil' if one.is_inch else 'µm'}"
    told = (f"measured {span}, {mean} on average of {len(figures)} readings" if len(figures) > 1
            else f"measured once, {span}")
    return f"“{one.named.name}” was {told}. " + " ".join(_held(one, want) for want in one.wanted)


def _held(one: Plated, want: Wanted) -> str:
    figures = one.read.figures
    least = both(Interval(want.least, want.least), "µm", "mil", one.is_inch)
    asked = f"Ordered is at least {least}" if want.who == "ordered" else f"“{want.who}” asks for at least {least}"
    thin = sum(figure < want.least * _SLACK for figure in figures)
    if not thin:
        return f"{asked}: {'no reading is' if len(figures) > 1 else 'it is not'} under that."
    if len(figures) == 1:
        return f"{asked}: it is under that."
    share = f", {percent_of(thin / len(figures))}," if len(figures) >= _MANY else ""
    return f"{asked}: {thin} of the {len(figures)}{share} {'is' if thin == 1 else 'are'} under that."


def _sources(one: Plated) -> str:
    return "; ".join(("the book of measurements", *dict.fromkeys(want.source for want in one.wanted if want.source)))


class Thin(NamedTuple):
    """The last measuring of a plated thickness came out under what is wanted."""

    at: At
    written: str
    plated: Plated
    want: Wanted


def measured_thin(known: FigureInputs) -> Iterator[Thin]:
    """Of each plated thickness the thinnest reading of the last entry, where it is under what is wanted.

    A reading outside the limit that it was taken of is told by ``reading-outside``; here it is held against what
    stands elsewhere: the order that a check takes its limit from, and the class.
    """
    for one in plated(known):
        thinnest = min(one.read.last, key=lambda told: told.figure)
        written = one.named.limits[0].written
        own = written is not None and id(written) not in known.reckoning.of_value
        under = [want for want in one.wanted if thinnest.figure < want.least * _SLACK
                 and not (own and want.who == "ordered")]
        if under:
            yield Thin(thinnest.at, thinnest.written, one, max(under, key=lambda want: want.least))
