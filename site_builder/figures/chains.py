"""Chains of sizes: limits on a sum, with what is left when every part is within its own limits."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial
from itertools import product
from math import inf, prod
from typing import NamedTuple

from site_builder.figures.amounts import both, figure, percent_of
from site_builder.figures.batch_words import NO_BREAK, capital, listed
from site_builder.figures.chain_drawing import chain_drawing
from site_builder.figures.figure import Fault, Figure, Input, Missing
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import guarded, once
from site_builder.figures.readings import readings_of
from site_builder.formulas.chain import Size, matters_most, root_sum_square, worst_case
from site_builder.formulas.going_together import Trial, misfits, put_together
from site_builder.formulas.interval import Interval
from site_builder.formulas.iso_fits import FitRoom, fit_room
from site_builder.notebook.cases import Case, Cases
from site_builder.notebook.index import Place
from site_builder.notebook.model.entry import Condition
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.names import NamedValue
from site_builder.notebook.ways import MOST, around, can_hold_together, together, told_condition
from site_builder.quantity import Fit, Reference

RUNS = 10_000
"""Assemblies that are put together by chance where readings tell how the parts really are."""
_SOURCE = ("arithmetical and simple statistical tolerancing, Scholz, Tolerance Stack Analysis Methods, Boeing 1995; "
           "Monte Carlo, JCGM 101:2008")
_CAUTION = ("Root sum square takes for granted that every size varies by itself, around the middle of its limits. "
            "Parts of one mould or one setting do not.")
_EXACT = 1e-10
"""m: what reckoning with binary figures may leave over."""


class Chain(NamedTuple):
    """A limit on a sum with the sizes it is made of, in metres."""

    name: str
    limit: Limit
    place: Place
    sizes: tuple[Size, ...]
    least: float
    most: float
    is_inch: bool
    inputs: tuple[Input, ...]
    fit: str
    """``H8/f7`` where it is a hole and a shaft of a fit; else empty."""
    fit_size: float
    """The size in mm that the fit is on."""
    holds: Condition = ()
    """When these sizes meet; empty where they always do."""

    @property
    def worst(self) -> Interval:
        """The gap when every size stands at its worst limit at once."""
        return _rounded(worst_case(self.sizes))

    @property
    def likely(self) -> Interval:
        """The gap that all but 3 in 1000 keep."""
        return _rounded(root_sum_square(self.sizes))

    @property
    def measured(self) -> bool:
        """Whether readings tell how any of the sizes really is."""
        return any(len(size.measured) > 1 for size in self.sizes)

    @property
    def always(self) -> bool:
        """Whether parts within their limits always go together."""
        return self.worst.low >= self.least - _EXACT and self.worst.high <= self.most + _EXACT

    @property
    def never(self) -> bool:
        """Whether parts within their limits never do."""
        return self.worst.high < self.least - _EXACT or self.worst.low > self.most + _EXACT

    @property
    def room(self) -> FitRoom | None:
        """The clearance of the fit by name. Raises ``Impossible`` for one that is not tabled."""
        return fit_room(self.fit_size, self.fit) if self.fit else None

    def trial(self) -> Trial | None:
        """Assemblies put together from the readings; None where there are none."""
        return put_together(self.sizes, self.least - _EXACT, self.most + _EXACT, runs=RUNS) if self.measured else None

    def misfit(self) -> float:
        """The share that will not go together, when every size follows the bell curve within its limits."""
        return 0.0 if self.always else misfits(self.sizes, self.least, self.most).all


def _rounded(span: Interval) -> Interval:
    return Interval(round(span.low, 10), round(span.high, 10))


@once
def chains(known: FigureInputs) -> tuple[Chain, ...]:
    """Every limit on a sum of lengths whose parts can all be told, once for each way in which its sizes can meet."""
    asked = Cases(known.reckoning)
    found: list[Chain] = []
    for limit, place in known.index.of(Limit):
        for case in _meetings(known, asked, limit, place) if limit.sum else ():
            one = _chain(known, limit, place, case)
            found += [one] if one is not None else []
    return tuple(found)


_Meeting = Mapping[int, Case]
"""By the id of a named value the case of it that meets the others; empty where nothing varies."""


def _meetings(known: FigureInputs, asked: Cases, limit: Limit, place: Place) -> Iterator[_Meeting]:
    """The rows and variants of the parts that can hold together; nothing where there are too many."""
    hits = {id(named[0]): named for _, _, named in known.reckoning.parts(limit) if named}
    cases = {key: [case for one in named for case in asked.of(one, around(place))] for key, named in hits.items()}
    varying = {key: told for key, told in cases.items() if any(case.holds for case in told)}
    if prod(map(len, varying.values())) > MOST:
        return
    for chosen in product(*varying.values()):
        if can_hold_together(*(one for case in chosen for one in case.holds)):
            yield dict(zip(varying, chosen, strict=True))


def _chain(known: FigureInputs, limit: Limit, place: Place, meeting: _Meeting) -> Chain | None:
    name = next((str(outer.name) for outer in place.up() if outer.name is not None), "")
    factors: dict[int, int] = {}
    hits_of: dict[int, tuple[str, tuple[NamedValue, ...]]] = {}
    for written, minus, hits in known.reckoning.parts(limit):
        if not hits:
            return None
        factors[id(hits[0])] = factors.get(id(hits[0]), 0) + (-1 if minus else 1)
        hits_of[id(hits[0])] = str(written).removeprefix("minus ").strip(), hits
    names = _short([text for text, _ in hits_of.values()])
    sizes: list[Size] = []
    inputs: list[Input] = []
    is_inch = False
    for key, (text, hits) in hits_of.items():
        part = names[text]
        case = meeting.get(key)
        bounds = case.figures if case is not None else known.reckoning.widest(hits)
        if bounds is None or bounds.kind != "length" or bounds.relative or not factors[key]:
            return None
        low = bounds.low if bounds.low is not None else bounds.aim_low
        high = bounds.high if bounds.high is not None else bounds.aim_high
        if low is None or high is None:
            return None
        is_inch = is_inch or bounds.unit.system == "inch"
        read = readings_of(known, hits[0]) if len(hits) == 1 and case is None else None
        middle, half = float(low + high) / 2, float(high - low) / 2
        sizes.append(Size(part, middle, -half, half, float(factors[key]), read.figures if read is not None else ()))
        told = _input(known, part, hits)
        inputs.append(replace(told, written=case.written) if case is not None else told)
        inputs += [read.input] if read is not None else []
    least, most, told_inch = _allowed(known, limit)
    is_inch = is_inch if told_inch is None else told_inch
    if limit.written is not None:
        inputs.append(Input("allowed", str(limit.written), "procedure", place.owner_id, place.step, limit.written.at))
    fit, size = _fit(known, [(factors[key], hits) for key, (_, hits) in hits_of.items()])
    holds = together(*(one for case in meeting.values() for one in case.holds))
    if not sizes:
        return None
    return Chain(name, limit, place, tuple(sizes), least, most, is_inch, tuple(inputs), fit, size, holds)


def _short(texts: Sequence[str]) -> Mapping[str, str]:
    """The last name of each path; the whole path where two would read alike."""
    last = {text: text.rpartition("/")[2] for text in texts}
    return {text: name if list(last.values()).count(name) == 1 else text for text, name in last.items()}


def _allowed(known: FigureInputs, limit: Limit) -> tuple[float, float, bool | None]:
    """Least and most of the sum, and whether they are told in inches; None where nothing is told."""
    bounds = known.reckoning.bounds(limit.written) if limit.written is not None else None
    if bounds is None or bounds.kind != "length" or bounds.relative:
        return -inf, inf, None
    return (float(bounds.low) if bounds.low is not None else -inf,
            float(bounds.high) if bounds.high is not None else inf, bounds.unit.system == "inch")


def _input(known: FigureInputs, part: str, hits: tuple[NamedValue, ...]) -> Input:
    """The line that says the size itself, where another only takes it over."""
    told = _origin(known, hits)
    leaf, named = _leaf(told), told[0]
    owner = named.owner_id
    if not owner and named.kind == "part":
        owner = next((id_ for id_, one in known.notebook.parts.items() if one is named.entry), "")
    written = str(leaf) if leaf is not None else "several values, the widest of them"
    return Input(part, written, named.kind, owner, named.step, leaf.at if leaf is not None else named.entry.at)


def _origin(known: FigureInputs, hits: tuple[NamedValue, ...]) -> tuple[NamedValue, ...]:
    """Where a value that is taken over whole comes from."""
    seen: set[int] = set()
    while (leaf := _leaf(hits)) is not None and id(leaf) not in seen:
        seen.add(id(leaf))
        namings = known.reckoning.of_value.get(id(leaf), ())
        if len(namings) != 1 or (not namings[0].whole and not isinstance(leaf.value.what, Reference)):
            break
        if not namings[0].hits:
            break
        hits = namings[0].hits
    return hits


def _leaf(hits: Iterable[NamedValue]) -> Written | None:
    """The one value written, where there is but one."""
    leaves = [cell.written for hit in hits for limit in hit.limits for _, cell in limit.cells()]
    return leaves[0] if len(leaves) == 1 else None


def _fit(known: FigureInputs, parts: list[tuple[int, tuple[NamedValue, ...]]]) -> tuple[str, float]:
    """The name of the fit where a hole and a shaft of it are the whole chain."""
    if sorted(factor for factor, _ in parts) != [-1, 1]:
        return "", 0.0
    hole, shaft = (_fit_of(known, hits) for _, hits in sorted(parts, key=lambda part: -part[0]))
    if hole is None or shaft is None or hole.unit.symbol != "mm" or shaft.unit.symbol != "mm":
        return "", 0.0
    if not hole.letters[0].isupper() or not shaft.letters[0].islower() or hole.size.exact != shaft.size.exact:
        return "", 0.0
    return f"{hole.letters}{hole.grade}/{shaft.letters}{shaft.grade}", float(hole.size.exact)


def _fit_of(known: FigureInputs, hits: tuple[NamedValue, ...]) -> Fit | None:
    leaf = _leaf(_origin(known, hits))
    return leaf.value.what if leaf is not None and isinstance(leaf.value.what, Fit) else None


def chain_figures(known: FigureInputs) -> Iterator[Figure | Missing | Fault]:
    """The chapter of chains: each where the limit on the sum stands."""
    for one in chains(known):
        if one.place.procedure is not None:
            yield from guarded(partial(_said, one), one.inputs)


def _said(one: Chain) -> Iterator[Figure]:
    worst, likely = one.worst, one.likely
    case = told_condition(one.holds)
    sentence = f"{capital(case)}: " if case else ""
    sentence += f"“{one.name}” comes to {length(one, worst)} when every size stands at its worst limit at once"
    if likely != worst:
        sentence += f", and to {length(one, likely)} in all but about 3 of 1000 (root sum square)"
    sentence += "."
    sentence += f" {_verdict(one)}{_by_name(one)}{_most(one)}"
    yield Figure(
        "procedure", one.place.owner_id, sentence, one.inputs, "chain of sizes", _SOURCE, _CAUTION, one.place.step,
        chain_drawing(one.name, one.sizes, worst, likely, Interval(one.least, one.most), one.is_inch),
    )


def length(one: Chain, span: Interval) -> str:
    """A gap in both systems, the shop's own first."""
    return both(span, "mm", "in", one.is_inch)


def _verdict(one: Chain) -> str:
    trial = one.trial()
    told = ""
    if trial is not None:
        count = max(len(size.measured) for size in one.sizes)
        told = (f" Of {trial.runs:,} put together by chance, with the spread that up to {count} readings show, "
                f"{_share(trial.misfits.all, trial.doubt)} would not go together.")
    if one.least == -inf and one.most == inf:
        return f"No limit is told for it.{told}"
    if one.never:
        return f"Parts within their own limits never go together.{told}"
    if one.always:
        return f"Parts within their own limits always go together.{told}"
    return f"By the bell curve {_share(one.misfit(), 0)} of them will not go together.{told}"


def _share(share: float, doubt: float) -> str:
    """A share with no more digits than it is good for."""
    if share == 0:
        return f"fewer than {percent_of(doubt, 1)}" if doubt else f"0{NO_BREAK}%"
    if share < 5e-5:
        return f"fewer than 0.01{NO_BREAK}%"
    return f"about {percent_of(share)}"


def _by_name(one: Chain) -> str:
    room = one.room
    if room is None:
        return ""
    kinds = {"clearance": "a fit with room always", "transition": "a fit with sometimes room and sometimes none",
             "interference": "a fit that must be pressed"}
    return (f" By name it is {one.fit_size:g} {one.fit}, {kinds[room.kind]}: {figure(float(room.least))} to "
            f"{figure(float(room.most))}{NO_BREAK}µm.")


def _most(one: Chain) -> str:
    parts = [part for part in matters_most(one.sizes) if part.share > 0]
    if len(parts) < 2:
        return ""
    if parts[0].share - parts[-1].share < 0.02:
        return " All its sizes matter alike."
    named = [f"{percent_of(part.share)} from “{part.name}”" for part in parts[:3]]
    return f" Of the spread comes {listed(named)}."
