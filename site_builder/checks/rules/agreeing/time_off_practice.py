from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from fractions import Fraction

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.checks.rules.records.standing import standing
from site_builder.checks.rules.values.held import reckoning
from site_builder.checks.rules.values.sums import ends, shown
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.model.records import Practice

_ENTRIES, _PIECES = 3, 20
_FAR = 2
"""Below so many entries or pieces nothing is said, and only of a time twice or half as long: common practice."""


def check(analysis: Analysis) -> Iterator[Found]:
    worked: dict[str, list[tuple[Fraction, Fraction]]] = defaultdict(list)
    held = reckoning(analysis)
    for entry, _ in standing(analysis, Practice):
        if entry.level not in ("alone", "teaches") or entry.took is None or entry.pieces is None:
            continue
        took, pieces = held.bounds(entry.took), held.bounds(entry.pieces)
        if took is not None and pieces is not None and took.aim_low and pieces.aim_low and took.kind == "time":
            worked[str(entry.procedure)].append((took.aim_low, pieces.aim_low))
    for id_, entries in worked.items():
        own = analysis.notebook.procedures.get(id_)
        total, made = sum(t for t, _ in entries), sum(p for _, p in entries)
        if own is None or len(own.time) != 1 or len(entries) < _ENTRIES or made < _PIECES:
            continue
        time = own.time[0]
        each = held.bounds(time.each) if time.each is not None and not time.for_ else None
        setup = held.bounds(time.setup) if time.setup is not None else None
        if each is None or time.each is None or each.kind not in ("time", "time per count"):
            continue
        low, high = ends(each)
        spent = (setup.aim_high or setup.high or Fraction(0)) if setup is not None else Fraction(0)
        # Whether getting ready was counted in is not told: both are held to it.
        without = (total - len(entries) * spent) / made
        seen = total / made
        if (low is not None and seen * _FAR < low) or (high is not None and without > high * _FAR):
            yield Found(
                time.each.at, f"`{time.each}` for a piece, but the book of practice shows "
                f"{shown(each, Fraction(round(seen)))} from {made} pieces of those who do it alone.",
                "Put right the time, with its `source` and `date`, or correct the entries of the book.", id_,
            )


RULE = Rule(
    code="time-off-practice",
    level=Level.WARNING,
    summary="A time for a piece that is not what the book of practice shows.",
    reason="Batches are promised on this time. It is told only where it is twice or half of what the hands need.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot
time: {each: 5 min}
steps: Grind it.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot
time: {each: ▸40 min}
steps: Grind it.
=== skills/people.yml
people: {edda: {name: Edda}}
=== skills/records/practice.yml
---
practice: 1
who: edda
date: 2026-05-01
procedure: grind-foot
level: alone
pieces: 12
took: 1 h
---
practice: 2
who: edda
date: 2026-05-02
procedure: grind-foot
level: alone
pieces: 12
took: 1 h
---
practice: 3
who: edda
date: 2026-05-03
procedure: grind-foot
level: alone
pieces: 12
took: 1 h
""",
    check=check,
)
