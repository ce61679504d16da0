"""Writing at the line: who writes, what stands in the way, and what is shown after."""

from __future__ import annotations

from dataclasses import dataclass

from site_builder.amend import Amendment, Conflict, Refused, Written, write
from site_builder.bench.prospect import prospect
from site_builder.bench.spoken_findings import Spoken, all_spoken, refused
from site_builder.bench.visit import DESK, Visit


@dataclass(frozen=True, slots=True)
class Not:
    """Nothing was written yet."""

    lines: tuple[Spoken, ...]
    conflict: Conflict | None = None
    may: bool = False
    """Whether it may be written all the same."""


def act(visit: Visit, amendment: Amendment, *, anyway: bool = False) -> Written | Not:
    """Write, unless something stands in the way; what would become an error is told first."""
    if not amendment.changes and not amendment.renamings:
        return Not((Spoken("Nothing was changed.", "", "", False),))
    if not anyway:
        ahead = prospect(visit.here, amendment)
        if ahead.stop is None and ahead.errors:
            return Not(tuple(all_spoken(visit.names, ahead.errors)), may=True)
    made = write(visit.here.root, amendment, visit.writer or DESK, visit.here.now())
    if isinstance(made, Refused):
        return Not(tuple(refused(visit.names, made)))
    if isinstance(made, Conflict):
        return Not((), made)
    return made
