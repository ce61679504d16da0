"""Whether a gauge, with the hands that hold it, is good enough for what it measures."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf, sqrt
from statistics import fmean
from typing import Literal

from site_builder.formulas.errors import Impossible
from site_builder.formulas.guards import above_zero, share
from site_builder.skills.proof.chances import variance_ratio_above
from site_builder.skills.proof.demands import figures

GOOD, POOR = 0.10, 0.30
"""Share of the tolerance, or of the spread of the pieces, that the gauge may use up: under a tenth it is good,
over three tenths it is not good enough (AIAG, Measurement systems analysis, 4th edition; a convention)."""

_SPREADS = 6
"""Spreads that count as the whole width; older editions took 5.15."""

_TOLD_APART = 1.41
"""√2 as that manual rounds it."""


@dataclass(frozen=True, slots=True)
class GaugeStudy:
    """Spreads (standard deviations, in the unit measured) of readings and where they come from.

    ``repeating``: the same person, the same piece, again. ``between_people``: what another person adds,
    habits with certain pieces included. ``gauge``: both together. ``pieces``: the pieces themselves.
    ``of_tolerance`` is six gauge spreads over the tolerance, ``of_spread`` the gauge's spread over all spread.
    """

    repeating: float
    between_people: float
    gauge: float
    pieces: float
    total: float
    people_differ_by_piece: bool
    of_tolerance: float | None
    of_spread: float

    @property
    def told_apart(self) -> int | None:
        """Into how many sizes the gauge can sort these pieces; None where it shows no spread of its own."""
        return int(_TOLD_APART * self.pieces / self.gauge) if self.gauge else None

    @property
    def verdict(self) -> Literal["good", "usable with care", "not good enough"]:
        """By the tolerance where there is one, else by the spread of the pieces."""
        used = self.of_spread if self.of_tolerance is None else self.of_tolerance
        return "good" if used < GOOD else "usable with care" if used <= POOR else "not good enough"


def gauge_study(
    readings: Sequence[Sequence[Sequence[float]]], tolerance: float | None = None, drop_above: float = 0.25
) -> GaugeStudy:
    """Split the spread of readings: ``readings[piece][person][repeat]``, all in one unit.

    Every person reads every piece equally often, twice or more; one person will do, two or more pieces. The
    habit of people with certain pieces counts by itself unless luck alone would show as much more often than
    ``drop_above`` (1: never dropped). What comes out under nothing is nothing.
    Raises ``Impossible`` for a study with gaps or a tolerance of nothing.
    Source: two-way analysis of variance as AIAG, Measurement systems analysis, 4th edition, chapter III.
    """
    people, repeats = _shape(readings)
    if tolerance is not None:
        above_zero("tolerance", "", tolerance)
    share("luck above which habits are dropped", drop_above)
    count = len(readings)
    cells = [[fmean(cell) for cell in piece] for piece in readings]
    of_piece = [fmean(piece) for piece in cells]
    of_person = [fmean(piece[j] for piece in cells) for j in range(people)]
    mean = fmean(of_piece)

    again = sum((x - cells[i][j]) ** 2 for i, p in enumerate(readings) for j, cell in enumerate(p) for x in cell)
    habits = repeats * sum(
        (cells[i][j] - of_piece[i] - of_person[j] + mean) ** 2 for i in range(count) for j in range(people)
    )
    again_freedom, habits_freedom = count * people * (repeats - 1), (count - 1) * (people - 1)
    piece_square = people * repeats * sum((x - mean) ** 2 for x in of_piece) / (count - 1)
    person_square = count * repeats * sum((x - mean) ** 2 for x in of_person) / (people - 1) if people > 1 else 0.0

    again_square = again / again_freedom
    habit_square = habits / habits_freedom if habits_freedom else 0.0
    ratio = habit_square / again_square if again_square else (inf if habit_square else 0.0)
    differ = habits_freedom > 0 and variance_ratio_above(ratio, habits_freedom, again_freedom) <= drop_above
    if differ:
        noise, habit = habit_square, max(0.0, (habit_square - again_square) / repeats)
    else:
        again_square = noise = (again + habits) / (again_freedom + habits_freedom)
        habit = 0.0
    person = max(0.0, (person_square - noise) / (count * repeats)) if people > 1 else 0.0
    piece = max(0.0, (piece_square - noise) / (people * repeats))
    gauge = again_square + person + habit
    if not gauge + piece > 0:
        raise Impossible("readings", "", "all the same", "must differ somewhere")
    return GaugeStudy(
        repeating=sqrt(again_square),
        between_people=sqrt(person + habit),
        gauge=sqrt(gauge),
        pieces=sqrt(piece),
        total=sqrt(gauge + piece),
        people_differ_by_piece=differ,
        of_tolerance=None if tolerance is None else _SPREADS * sqrt(gauge) / tolerance,
        of_spread=sqrt(gauge / (gauge + piece)),
    )


def _shape(readings: Sequence[Sequence[Sequence[float]]]) -> tuple[int, int]:
    if len(readings) < 2:
        raise Impossible("pieces", "count", len(readings), "must be two or more")
    people = len(readings[0])
    repeats = len(readings[0][0]) if people else 0
    if people < 1 or repeats < 2:
        raise Impossible("readings of a piece by a person", "count", repeats, "must be two or more")
    for piece in readings:
        if len(piece) != people or any(len(cell) != repeats for cell in piece):
            raise Impossible("readings", "", "a study with gaps", "must be as many from every person on every piece")
        for cell in piece:
            figures("readings", "", cell, 2)
    return people, repeats
