"""The proof a skill asks for, held against the books: line by line what is there and what is missing."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.people import Proof, Skill
from site_builder.notebook.model.records import Record
from site_builder.skills.evidence import Evidence
from site_builder.skills.proof.chances import binomial_at_most
from site_builder.skills.proof.wording import percent
from site_builder.skills.readings import Judgement, Outcome, figures_of

_SHOWN_BY = {
    "practice": "practice", "trial": "a trial by feel", "measurement": "a measurement",
}

_EVEN = 1 + 1e-12
"""A risk met to the last digit is met; the machine reckons with sixteen."""


@dataclass(frozen=True, slots=True)
class Line:
    """One thing that is asked for: of what kind, what the books say of it, and whether that is enough.

    ``has`` and ``wants`` are on one scale (pieces; shares and sureness from 0 to 1), where there is one.
    """

    what: str
    told: str
    enough: bool
    has: float | None = None
    wants: float | None = None
    of: str = ""
    """The limit that it is about, as the proof names it."""


def proof_lines(
    evidence: Evidence, skill: Skill, learner: str, day: date | None, cited: Collection[Record] = (),
) -> Iterator[Line]:
    """What the proof of a skill asks for and what stands in the books on a day."""
    proof, id_ = skill.proof, str(skill.skill)
    if proof is None:
        return
    yield from _pieces(evidence, proof, id_, learner, day)
    for limit in proof.agreement:
        wanted = least(limit.written)
        if wanted is not None:
            found = evidence.agreement(learner, id_, day)
            told = (f"{found[0]} of {found[1]} verdicts by feel as the teacher's" if found
                    else "no verdicts by feel that can be held against the teacher's")
            share = found[0] / found[1] if found else 0.0
            yield Line("agreement", f"{told}; asked for: {limit.written}", found is not None and share >= wanted,
                       share, float(wanted))
    for name, found_in in evidence.limits(learner, id_, day, cited):
        yield Line("limit", f"{name}: {_limit_told(found_in)}", found_in is not None and found_in.kept, of=name)


def _limit_told(found: Judgement | None) -> str:
    if found is None:
        return "never measured"
    if found.outcome is Outcome.UNSHOWN:
        return f"measured, but not shown to be kept, since {found.why}"
    return f"{found.outcome} in the latest measurement"


def item_lines(
    evidence: Evidence, skill: Skill, items: Collection[str], learner: str, day: date | None,
    cited: Collection[Record] = (),
) -> Iterator[Line]:
    """For each of these checklist items that is not shown by being seen, whether the books show it."""
    for show in skill.checklist:
        how = _SHOWN_BY.get(str(show.evidence or "seen"))
        if show.id is not None and how is not None and show.id in items:
            there = evidence.has(str(show.evidence), learner, str(skill.skill), day, cited)
            told = f"{how} stands in the books" if there else f"no entry shows it; it is shown by {how}"
            yield Line("item", f"{show.id}: {told}", there)


def _pieces(
    evidence: Evidence, proof: Proof, skill: str, learner: str, day: date | None,
) -> Iterator[Line]:
    wanted, share, sure = least(proof.pieces), least(proof.share), least(proof.confidence)
    count = evidence.practice(learner, skill, day)
    if wanted is not None:
        yield Line("pieces", f"{count.made} pieces of {wanted}", count.made >= wanted,
                   float(count.made), float(wanted))
    if share is None:
        return
    own = count.good / count.made if count.made else Fraction(0)
    told = f"{count.good} of {count.made} good at the first go"
    if sure is None:
        yield Line("share", f"{told}; asked for: {proof.share}", bool(count.made) and own >= share, float(own),
                   float(share))
        return
    # one minus the chance that a hand of exactly this share would have done as well, or better
    risk = binomial_at_most(int(count.made - count.good), int(count.made), float(1 - share))
    reached = 1 - risk
    told += f"; asked for: {proof.share}, and to be {proof.confidence} sure of it; so far {percent(reached)} sure"
    yield Line("share", told, risk <= float(1 - sure) * _EVEN, reached, float(sure))


def least(written: Written | None) -> Fraction | None:
    """The least that a value accepts: of `min 95 %` and of `95 %` the 95 %; None where none is told."""
    found = None if written is None else figures_of(written.value)
    if found is None:
        return None
    return found.low if found.low is not None else found.aim_low
