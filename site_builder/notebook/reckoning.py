"""The figures of a value with the names in it followed: `max 1/3 of wall`, sums, values taken over whole.

A name may lead to several limits (variants, rows of a table). Which of them is in hand only the work knows, so
the widest span of all of them counts: nothing is called impossible that is possible for one variant.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from site_builder.notebook.finding import At
from site_builder.notebook.index import Place
from site_builder.notebook.model.limit import Limit, Saying, Window
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.names import NamedValue
from site_builder.notebook.references import References
from site_builder.notebook.tree import Text
from site_builder.notebook.ways import Ways
from site_builder.quantity import (
    Bounds,
    Computed,
    Fit,
    Limits,
    Quantity,
    Reference,
    Some,
    Toleranced,
    Value,
    Word,
    bounds,
    references,
    same_dimensions,
)
from site_builder.quantity.value import Operator, Term

_NAMELESS = (Quantity, Toleranced, Fit, Some)
_MINUS = "minus "


@dataclass(frozen=True, slots=True)
class Naming:
    """A name that stands in a value, and the values it leads to.

    ``whole``: it stands alone, so that it may be a plain word. ``within`` is the value it stands in, None for
    a part of a `sum`.
    """

    name: str
    at: At
    place: Place
    hits: tuple[NamedValue, ...]
    whole: bool = False
    within: Written | None = None


class Reckoning:
    """Figures of a notebook's values, reckoned when asked for."""

    def __init__(self, known: References) -> None:
        self.references = known
        self.circles: list[tuple[NamedValue, ...]] = []
        """Values that lean on one another in a ring, as met while reckoning."""
        self._open: list[NamedValue] = []
        self._found: dict[int, Bounds | None] = {}
        self._plain: dict[int, tuple[Written, Bounds | None]] = {}

    @cached_property
    def namings(self) -> tuple[Naming, ...]:
        """Every name in a value or a `sum`, in order."""
        return tuple(self._namings())

    @cached_property
    def of_value(self) -> Mapping[int, tuple[Naming, ...]]:
        """The names that stand in a value, by the id of its leaf."""
        found: dict[int, list[Naming]] = {}
        for naming in self.namings:
            if naming.within is not None:
                found.setdefault(id(naming.within), []).append(naming)
        return {leaf: tuple(namings) for leaf, namings in found.items()}

    @cached_property
    def place_of(self) -> Mapping[int, Place]:
        """Where each limit stands, by its id."""
        kinds = (Limit, Window, Saying)
        return {id(place.entry): place for kind in kinds for place in self.references.index.places.get(kind, ())}

    @cached_property
    def ways(self) -> Ways:
        """Which choices of variants there are."""
        return Ways(self.references.notebook)

    # ------------------------------------------------------------------ figures

    def bounds(self, written: Written) -> Bounds | None:
        """The figures of a value; None where they cannot be told."""
        namings = self.of_value.get(id(written))
        if namings is None:
            if id(written) not in self._plain:  # the leaf is held with it, so that no other gets its id
                self._plain[id(written)] = written, bounds(written.value)
            return self._plain[id(written)][1]
        given: dict[str, Bounds] = {}
        for naming in namings:
            found = self.widest(naming.hits)
            # A bound takes the stricter end of what it leans on, and of several variants that would be wrong.
            if found is not None and not (type(written.value.what) is Limits and self.varies(naming.hits)):
                given[naming.name] = found
        return bounds(written.value, given)

    def bounds_of(self, limit: Limit) -> list[Bounds | None]:
        """The figures of a limit, or of every cell of its table; without a value, those of its sum."""
        written = [cell.written for _, cell in limit.cells()]
        if written == [None] and limit.sum:
            return [self.sum_of(limit)]
        return [None if one is None else self.bounds(one) for one in written]

    def each(self, named: NamedValue) -> list[Bounds | None]:
        """The figures of a named value in all its variants and rows."""
        if named.written is not None:
            return [self.bounds(named.written)]
        return [found for limit in named.limits for found in self.bounds_of(limit)]

    def varies(self, hits: Iterable[NamedValue]) -> bool:
        """Whether there is more than one value to choose from: variants, rows of a table."""
        return sum(len(list(limit.cells())) for hit in hits for limit in hit.limits) > 1

    def widest(self, hits: Iterable[NamedValue]) -> Bounds | None:
        """One span about all variants of all these values; None where one of them cannot be told."""
        return _about([self._of(hit) for hit in hits])

    def _of(self, named: NamedValue) -> Bounds | None:
        if id(named) in self._found:  # named values live as long as the references do
            return self._found[id(named)]
        for number, one in enumerate(self._open):
            if one is named:
                self.circles.append(tuple(self._open[number:]))
                return None
        self._open.append(named)
        try:
            each = self.each(named)
        finally:
            self._open.pop()
        found = _about(each)
        self._found[id(named)] = found
        return found

    # ------------------------------------------------------------------ sums

    def parts(self, limit: Limit) -> list[tuple[Text, bool, tuple[NamedValue, ...]]]:
        """The parts of a `sum`: as written, whether it is subtracted, and what it leads to."""
        place = self.place_of.get(id(limit))
        if place is None:
            return []
        return [(part, part.startswith(_MINUS), self._hits(_bare(part), place)) for part in limit.sum]

    def sum_of(self, limit: Limit) -> Bounds | None:
        """What the parts of a `sum` come to, each varying over its whole width (worst case)."""
        parts = self.parts(limit)
        return self.summed([minus for _, minus, _ in parts], [self.widest(hits) for _, _, hits in parts])

    def summed(self, minus: Sequence[bool], parts: Sequence[Bounds | None]) -> Bounds | None:
        """The same from the figures of the parts, and which of them are subtracted; None where one is not told."""
        given = {str(number): found for number, found in enumerate(parts) if found is not None}
        terms = sorted(zip(minus, map(Reference, map(str, range(len(parts)))), strict=True), key=lambda term: term[0])
        if len(given) < len(parts) or not terms or terms[0][0]:
            return None
        first, *others = terms
        rest: list[tuple[Operator, Term]] = [("minus" if taken else "plus", term) for taken, term in others]
        return bounds(Value(Computed(first[1], tuple(rest)) if rest else first[1]), given)

    # ------------------------------------------------------------------ names

    def _namings(self) -> Iterator[Naming]:
        for leaf, place, _ in self.references.index.values:
            what = leaf.value.what
            if type(what) in _NAMELESS or (type(what) is Limits and _is_plain(what)):
                continue
            if type(what) is Word:
                yield Naming(what.text, leaf.at, place, self._hits(what.text, place), True, leaf)
            for one in references(leaf.value):
                at = leaf.text.at_letter(one.start)
                yield Naming(one.name, at, place, self._hits(one.name, place), False, leaf)
        for link in self.references.links:
            if link.key == "sum":
                name = _bare(link.text)
                yield Naming(name, link.at, link.place, self._hits(name, link.place))

    def _hits(self, name: str, place: Place) -> tuple[NamedValue, ...]:
        return tuple(self.references.values(name, place))


def _bare(part: str) -> str:
    return part.removeprefix(_MINUS).strip()


def _is_plain(limits: Limits) -> bool:
    """Whether every clause is a mere quantity, in which no name can stand."""
    return all(type(clause.what) is Quantity for clause in limits.clauses)


def _about(all_found: list[Bounds | None]) -> Bounds | None:
    """The span about several; None where one is not told or they are of different kinds."""
    found = [one for one in all_found if one is not None]
    if not found or len(found) < len(all_found):
        return None
    first = found[0]
    if len(found) == 1:
        return first
    if not all(same_dimensions(first.unit, other.unit) for other in found[1:]):
        return None
    if any(one.limited for one in found):
        # A bare figure among limits is a span of no width.
        found = [one if one.limited else replace(one, low=one.aim_low, high=one.aim_high) for one in found]
    lows, highs = [one.low for one in found], [one.high for one in found]
    aims_low, aims_high = [one.aim_low for one in found], [one.aim_high for one in found]
    return Bounds(
        first.unit,
        None if None in lows else min(low for low in lows if low is not None),
        None if None in highs else max(high for high in highs if high is not None),
        None if None in aims_low else min(aim for aim in aims_low if aim is not None),
        None if None in aims_high else max(aim for aim in aims_high if aim is not None),
        rough=any(one.rough for one in found),
        low_untold=any(one.low_untold for one in found),
        high_untold=any(one.high_untold for one in found),
    )
