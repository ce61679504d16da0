"""Sign-offs that were given without the proof asked for, each with the reason its signer wrote down.

Whatever page tells of such a sign-off tells its reason too.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from markupsafe import Markup

from site_builder.handbook.filled import filled
from site_builder.handbook.pages.in_words import listed, lowered, sentence
from site_builder.handbook.pages.roll import Roll, entry_anchor
from site_builder.handbook.pen import Pen
from site_builder.notebook.model.records import SignOff

STAR = "*"
"""Stands at a level that was signed so; what it means stands beneath."""


def star(entry: SignOff) -> str:
    """The mark at what an entry gave; empty where the proof was there."""
    return STAR if entry.override is not None else ""


def reasons_given(
    roll: Roll, pen: Pen, entries: Iterable[SignOff], *, named: bool = True, starred: bool = True,
) -> Iterator[Markup]:
    """Each reason once, with the skills of each learner that were signed for it.

    ``named``: whose they are is told. ``starred``: they are marked with a star above.
    """
    by_reason: dict[str, dict[str, list[SignOff]]] = {}
    for entry in entries:
        if entry.override is not None:
            by_reason.setdefault(str(entry.override), {}).setdefault(str(entry.learner), []).append(entry)
    for reason, learners in by_reason.items():
        of_each = []
        for learner, signed in learners.items():
            skills = listed(_skill(pen, one) for one in {str(one.skill): one for one in signed}.values())
            of_each.append(filled("{}: {}", roll.short.get(learner, learner), skills) if named else skills)
        yield filled("<b>{}Without the proof asked for</b> ({}): {}", f"{STAR} " if starred else "",
                     Markup("; ").join(of_each), sentence(pen.words(reason)))


def _skill(pen: Pen, entry: SignOff) -> Markup:
    title = lowered(pen.title("skill", str(entry.skill)))
    return pen.link("skill", str(entry.skill), title, entry_anchor(entry))
