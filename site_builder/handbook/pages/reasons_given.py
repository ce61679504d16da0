"""Sign-offs that were given without the proof asked for, each with the reason its signer wrote down.

Whatever page tells of such a sign-off tells its reason too.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from site_builder.handbook.page_context import PageContext
from site_builder.handbook.pages.people_index import PeopleIndex, entry_anchor
from site_builder.notebook.model.records import SignOff
from site_builder.views.prose import Prose, joined, listed, lowered, prose, say, sentence

STAR = "*"
"""Stands at a level that was signed so; what it means stands beneath."""


def star(entry: SignOff) -> str:
    """The mark at what an entry gave; empty where the proof was there."""
    return STAR if entry.override is not None else ""


def reasons_given(
    people_index: PeopleIndex,
    context: PageContext,
    entries: Iterable[SignOff],
    *,
    named: bool = True,
    starred: bool = True,
) -> Iterator[Prose]:
    """Each reason once, with whose skills were signed for it, and which.

    ``named``: whose they are is told. ``starred``: they are marked with a star above.
    """
    by_reason: dict[str, dict[str, list[SignOff]]] = {}
    reasons: dict[str, set[str]] = {}
    for entry in entries:
        if entry.override is not None:
            learner, reason = str(entry.learner), str(entry.override)
            by_reason.setdefault(reason, {}).setdefault(learner, []).append(entry)
            reasons.setdefault(learner, set()).add(reason)
    for reason, learners in by_reason.items():
        of_each = []
        for learner, signed in learners.items():
            who = [prose(people_index.short.get(learner, learner))] if named else []
            # the stars show which skills; they are named only where there is more than one reason to tell apart
            what = [_skills(context, signed)] if not starred or len(reasons[learner]) > 1 else []
            of_each.append(joined([*who, *what], ": "))
        parts = [one for one in of_each if one]
        told = joined(parts, "; ") if any(": " in one.plain for one in parts) else listed(parts)
        yield say("**{}Without the proof asked for**{}: {}", f"{STAR} " if starred else "",
                     say(" ({})", told) if told else "", sentence(context.words(reason)))


def _skills(context: PageContext, signed: Iterable[SignOff]) -> Prose:
    return listed(_skill(context, one) for one in {str(one.skill): one for one in signed}.values())


def _skill(context: PageContext, entry: SignOff) -> Prose:
    title = lowered(context.title("skill", str(entry.skill)))
    return context.link("skill", str(entry.skill), title, entry_anchor(entry))
