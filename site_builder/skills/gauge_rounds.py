"""Rounds of a gauge study: measurements that are about the gauge and the hands that read it, and not about the work."""

from __future__ import annotations

from collections.abc import Iterable

from site_builder.notebook.model.records import Measurement
from site_builder.skills.readings import figures_of


def studies(entries: Iterable[Measurement]) -> list[list[Measurement]]:
    """The gauge studies among measurements of one value, each with its rounds.

    On one day, with one gauge, everybody has read the same pieces in the same order equally often, twice or more; each
    entry is one round and has as many readings as pieces.
    """
    groups: dict[tuple[object, tuple[str, ...], int], list[Measurement]] = {}
    for one in entries:
        pieces = figures_of(one.pieces.value) if one.pieces is not None else None
        count = len(one.readings)
        if pieces is not None and pieces.aim_low == count and count > 1 and one.date is not None:
            groups.setdefault((one.date.value, tuple(map(str, one.with_)), count), []).append(one)
    found = []
    for rounds in groups.values():
        each = [sum(one.who == who for one in rounds) for who in {one.who for one in rounds}]
        if len(each) > 1 and min(each) == max(each) >= 2:
            found.append(rounds)
    return found
