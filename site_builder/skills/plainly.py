"""How far somebody has come, as one person at a bench says it to another: counts and what to do, no statistics.

The figures behind it stand one touch away (``proof/wording.py``).
"""

from __future__ import annotations

from site_builder.formulas.guards import whole
from site_builder.skills.proof.agreement import Agreed
from site_builder.skills.proof.demands import counted
from site_builder.skills.proof.leaning import Leaning
from site_builder.skills.proof.steadiness import Steadiness
from site_builder.skills.proof.success_run import Due
from site_builder.skills.proof.wording import SELDOM


def plainly_pieces(good: int, made: int) -> str:
    """``70 of 75 were good at the first go.``"""
    counted("good pieces", good, whole("pieces made", made), "pieces made")
    if made == 0:
        return "No pieces yet."
    if good == made:
        return f"All {made} were good at the first go." if made > 1 else "The one piece was good at the first go."
    return f"{good or 'None'} of {made} {'was' if good <= 1 else 'were'} good at the first go."


def plainly_due(due: Due) -> str:
    """What is still missing of a run of pieces."""
    if due.proved:
        return "That is enough for the proof."
    return f"{due.more} more without a fault, and the proof is there."


def plainly_steady(steadiness: Steadiness) -> str:
    """Whether the hand is steady."""
    if not steadiness.turns:
        return "The hand is not steady yet."
    return "The hand was steady and has lost it." if steadiness.turns[-1].to == "unsteady" else "The hand is steady."


def plainly_agreed(agreed: Agreed, leaning: Leaning, learner: str, teacher: str) -> str:
    """``Of ten pieces Ansa and Edda agreed on seven.``, which were judged otherwise, and which way that errs."""
    told = [f"Of {agreed.pieces} pieces {learner} and {teacher} agreed on {_all(agreed)}."]
    if leaning.passed:
        told.append(f"Let pass: {', '.join(leaning.passed)}.")
    if leaning.thrown:
        told.append(f"Thrown away: {', '.join(leaning.thrown)}.")
    if leaning.passed or leaning.thrown:
        told.append(f"{_WAYS[leaning.way]}." if leaning.luck < SELDOM else "Too few to say which way it errs.")
    return " ".join(told)


_WAYS = {
    "none": "It errs neither way", "both ways": "It errs both ways alike",
    "lets bad ones pass": "It is a habit to let bad ones pass",
    "throws good ones away": "It is a habit to throw good ones away",
}


def _all(agreed: Agreed) -> str:
    return "all" if agreed.alike == agreed.pieces else str(agreed.alike or "none")
