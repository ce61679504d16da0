"""How far a learner has come with a skill, reckoned from what stands in the books."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from typing import Literal

from site_builder.notebook.model.people import Skill
from site_builder.notebook.model.records import Practice
from site_builder.notebook.way import span
from site_builder.skills.evidence import Count, Evidence
from site_builder.skills.proof.curve_fit import Fitted, Lot, fit_curve
from site_builder.skills.proof.sequential import Plan, Standing, judge
from site_builder.skills.proof.steadiness import Steadiness, steadiness
from site_builder.skills.proof.success_run import Due, pieces_due
from site_builder.skills.proof_due import least
from site_builder.skills.readings import figures_of

READY = Fraction(1, 3)
"""A ready hand makes a third of the faults that may be made; with fewer the test would ask more of it than the
proof does. Our own choice, as are the two below."""
STEADY, UNSTEADY = Fraction(1, 2), Fraction(2)
"""A hand is steady that makes half the faults that may be made, and not yet steady with twice as many."""
REFUSED = 0.05
"""The risk of holding back a ready hand."""
PASSED = 0.10
"""The risk of passing an unready one, where the skill names no confidence."""
LOTS = 3
"""So many entries with a time tell a curve; with fewer there is nothing to be sure of."""


@dataclass(frozen=True, slots=True)
class Batch:
    """One entry of practice: pieces, how many of them were lost or done again, seconds where they were told."""

    entry: Practice
    made: int
    bad: int
    seconds: float | None


@dataclass(frozen=True, slots=True)
class Progress:
    """All pieces of a learner at the work of a skill.

    ``order``: whether each piece was good at the first go. Where several stand in one entry, the bad ones are taken
    as spread evenly over it. ``tests``: each test that ends early, a new one after every "not ready", with ``at``
    counted from the first piece of all; the last one tells where the learner stands. ``due`` and the rest are None
    where the skill does not ask for a share.
    """

    batches: tuple[Batch, ...]
    order: tuple[bool, ...]
    due: Due | None
    tests: tuple[Standing, ...]
    steadiness: Steadiness | None

    @property
    def made(self) -> int:
        return len(self.order)

    @property
    def good(self) -> int:
        return sum(self.order)


@dataclass(frozen=True, slots=True)
class Pace:
    """The times of one procedure, a lot an entry, in ``unit``; ``target`` is its time for a piece where it is told."""

    procedure: str
    unit: Literal["min", "s"]
    lots: tuple[Lot, ...]
    fitted: Fitted | None
    target: float | None


def progress(evidence: Evidence, skill: Skill, learner: str, day: date | None) -> Progress:
    """Everything that the pieces of a learner tell."""
    batches = tuple(batches_of(evidence.practice(learner, str(skill.skill), day)))
    order = tuple(_in_order(batches))
    proof = skill.proof
    share, sure = (least(proof.share), least(proof.confidence)) if proof is not None else (None, None)
    if share is None or not 0 < share < 1:
        return Progress(batches, order, None, (), None)
    faults = 1 - share
    due = None
    if sure is not None and 0 < sure < 1:
        due = pieces_due(float(share), float(sure), len(order), len(order) - sum(order))
    plan = Plan(float(faults * READY), float(faults), REFUSED, float(1 - sure) if due is not None and sure else PASSED)
    steady = None
    if order and faults * UNSTEADY < 1:
        steady = steadiness(order, float(faults * STEADY), float(faults * UNSTEADY))
    return Progress(batches, order, due, tuple(_tests(order, plan)), steady)


def batches_of(count: Count) -> Iterator[Batch]:
    """The entries behind a count; only whole pieces can be judged."""
    for entry in count.entries:
        made = _whole(entry, "pieces")
        bad = min(made, _whole(entry, "scrap") + _whole(entry, "rework"))
        took = span(entry.took) if entry.took is not None else None
        yield Batch(entry, made, bad, float((took[0] + took[1]) / 2) if took is not None else None)


def paces(batches: Sequence[Batch], evidence: Evidence) -> Iterator[Pace]:
    """The pace at each procedure of which at least one entry tells a time; the pieces of the others count too."""
    by_procedure: dict[str, list[Lot]] = {}
    untimed: dict[str, int] = {}
    for batch in batches:
        procedure = str(batch.entry.procedure)
        if batch.seconds and batch.made:
            lot = Lot(batch.made, batch.seconds, untimed.pop(procedure, 0))
            by_procedure.setdefault(procedure, []).append(lot)
        else:
            untimed[procedure] = untimed.get(procedure, 0) + batch.made
    for procedure, took in by_procedure.items():
        size = 60.0 if took[0].took >= 60 * took[0].pieces else 1.0
        lots = tuple(replace(lot, took=lot.took / size) for lot in took)
        target = _each(evidence, procedure)
        yield Pace(
            procedure, "min" if size > 1 else "s", lots, fit_curve(lots) if len(lots) >= LOTS else None,
            target / size if target is not None else None,
        )


def _each(evidence: Evidence, procedure: str) -> float | None:
    """Seconds for a piece; none where there is more than one time to choose from."""
    known = evidence.notebook.procedures.get(procedure)
    told = [time.each for time in known.time if time.each is not None] if known is not None else []
    found = span(told[0]) if len(told) == 1 else None
    return float((found[0] + found[1]) / 2) if found is not None and found[0] > 0 else None


def _tests(order: Sequence[bool], plan: Plan) -> Iterator[Standing]:
    begun = 0
    while begun < len(order):
        standing = judge(order[begun:], plan)
        yield standing if standing.at is None else replace(standing, at=begun + standing.at)
        if standing.verdict != "not ready":
            return
        begun += standing.pieces


def _in_order(batches: Sequence[Batch]) -> Iterator[bool]:
    for batch in batches:
        # piece i is bad where the share of bad ones passes the next whole number: in the middle of each stretch
        for piece in range(batch.made):
            yield not _bad_by(batch, piece + 1) > _bad_by(batch, piece)


def _bad_by(batch: Batch, pieces: int) -> int:
    return (2 * batch.bad * pieces + batch.made) // (2 * batch.made)


def _whole(entry: Practice, key: str) -> int:
    written = getattr(entry, key)
    found = None if written is None else figures_of(written.value)
    return int(found.aim_low) if found is not None and found.aim_low is not None else 0
