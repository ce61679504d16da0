"""How much hangs on a question: what can hurt comes first, what is only nice to know comes last."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import IntEnum

from site_builder.analysis.analysis import Analysis
from site_builder.checks.interview import Question, Sitting
from site_builder.notebook.finding import At


class Weight(IntEnum):
    """What is at stake while a question stays open, the gravest first."""

    HARM = 0
    LONE = 1
    SPOILED = 2
    DOUBT = 3
    REST = 4

    @property
    def words(self) -> str:
        """What it is called when questions are counted."""
        return _WORDS[self]


_WORDS = {
    Weight.HARM: "on what can hurt somebody",
    Weight.LONE: "on what only one pair of hands can do",
    Weight.SPOILED: "on what spoils a piece",
    Weight.DOUBT: "on what is doubted every day",
    Weight.REST: "on the rest",
}

OF_CODE: dict[str, Weight] = {
    **dict.fromkeys((
        "accident-unsaid", "age-unsaid", "body-asked", "born-unsaid", "hands-missing", "harm-unlisted", "harm-unsaid",
        "hazard-unworded", "hazards-asked", "never-unexplained", "paper-unsaid", "rated-unsaid", "sheet-none",
        "tasted-danger",
    ), Weight.HARM),
    **dict.fromkeys((
        "calibration-unsaid", "ended-asked", "fail-wayless", "good-asked", "life-unsaid", "limit-unchecked",
        "loop-most", "mix-unsaid", "no-limits", "several-ends", "side-unsaid", "size-asked", "stand-asked",
        "trouble-causeless", "troubles-asked", "window-unanswered", "yield-asked",
    ), Weight.SPOILED),
    **dict.fromkeys((
        "act-cadence", "amount-of-what", "beginners-asked", "decided-asked", "feel-asked", "feel-no-sample",
        "feel-one-sided", "gallon-asked", "given-missing", "grit-asked", "look-cadence", "question-noted",
        "ready-asked", "settings-asked", "value-ask", "value-disputed", "value-perhaps", "value-some", "word-vague",
    ), Weight.DOUBT),
    **dict.fromkeys((
        "archive-unsaid", "because-asked", "before-asked", "change-unsaid", "checklist-none", "item-nameless",
        "lead-unsaid", "maker-unsaid", "materials-asked", "order-unsaid", "part-asked", "picture-asked",
        "picture-undescribed", "procedure-skillless", "products-asked", "properties-unsaid", "refresh-unsaid",
        "skill-unproved",
        "supplier-unsaid", "taken-in-unsaid", "time-asked", "time-unobserved", "tools-asked", "upkeep-unsaid",
        "voice-unasked",
    ), Weight.REST),
}
"""What a kind of question weighs by itself; each has its place here."""

_OF_HARM = ("hazards", "never", "wear", "accident", "away", "harm", "avoid", "age")
"""Keys of which an unanswered one leaves open what can hurt."""


@dataclass(frozen=True, slots=True)
class Weighed:
    """A question, what hangs on it, and the sitting it belongs to."""

    weight: Weight
    question: Question
    sitting: Sitting


def weighed(analysis: Analysis, sittings: Iterable[Sitting]) -> tuple[Weighed, ...]:
    """All questions, the weightiest first; of the same weight in the order of the interview."""
    found = [
        Weighed(_weight(analysis, question, sitting.is_lone), question, sitting)
        for sitting in sittings for question in sitting.questions
    ]
    return tuple(sorted(found, key=lambda one: one.weight))


def weight_of(analysis: Analysis, code: str, at: At) -> Weight:
    """What a question at a place of the notebook weighs by itself."""
    own = OF_CODE.get(code, Weight.REST)
    key = analysis.notebook.line(at).strip().removeprefix("- ").lstrip("{").partition(":")[0].strip()
    return Weight.HARM if key in _OF_HARM else own


def _weight(analysis: Analysis, question: Question, is_lone: bool) -> Weight:
    own = weight_of(analysis, question.code, question.at)
    if own is Weight.HARM:
        return own
    return Weight.LONE if is_lone and own is not Weight.REST else own
