"""A figure of the notebook with two ends: what the shop wrote as a range stays a range."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.way import ends_of
from site_builder.quantity import bounds


@dataclass(frozen=True, slots=True)
class Span:
    """From ``least`` to ``most`` in base units; ``rough`` where it was said with `about`, `perhaps` or as a range."""

    least: Fraction
    most: Fraction
    rough: bool = False

    def __add__(self, other: Span) -> Span:
        # Most procedures tell one or two kinds of time only, and sums of fractions are what a large batch costs most.
        if other is NONE:
            return self
        if self is NONE:
            return other
        return Span(self.least + other.least, self.most + other.most, self.rough or other.rough)

    def __mul__(self, count: Fraction | int) -> Span:
        if count == 1:
            return self
        return Span(self.least * count, self.most * count, self.rough)

    def __or__(self, other: Span) -> Span:
        """About both: for variants of which it is not known which one is in hand."""
        return Span(min(self.least, other.least), max(self.most, other.most), self.rough or other.rough)


NONE = Span(Fraction(0), Fraction(0))


def total(spans: Iterable[Span]) -> Span:
    """All of them together."""
    return sum(spans, NONE)


def written_span(leaf: Written | None, kind: str) -> Span | None:
    """The ends of a value of this kind in base units: where it aims, or else what it allows. None if untold."""
    found = bounds(leaf.value) if leaf is not None else None
    ends = ends_of(found) if found is not None else None
    if leaf is None or found is None or ends is None or found.kind != kind:
        return None
    return Span(*ends, found.rough or leaf.value.perhaps)
