"""Probing questions on a procedure, for the hour in which master and learner sit together.

The kinds of probe are those of the knowledge audit: L. G. Militello and R. J. B. Hutton, "Applied cognitive
task analysis (ACTA): a practitioner's toolkit for understanding cognitive task demands", Ergonomics 41 (11),
1998, 1618-1641: six basic ones, and two for where they fit. The wording is our own, and is made from what
the page tells: its tools, figures and signs. What the page answers already is not asked.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from zlib import crc32

from site_builder.analysis.analysis import Analysis
from site_builder.checks.page_facts import ANY_PIECE, PageFacts
from site_builder.notebook.model.things import Gauge, HandTool, Machine, Material, Tooling

LEAST, MOST = 8, 12
"""How many probes a procedure gets: one of each kind, and more where it has more to ask about."""


@dataclass(frozen=True, slots=True)
class Probe:
    """One probing question and its kind."""

    kind: str
    text: str


def probes(analysis: Analysis, procedure_id: str) -> tuple[Probe, ...]:
    """Eight to twelve probes on a procedure, the same at every run; KeyError for an unknown id."""
    page = PageFacts(analysis, analysis.told[procedure_id])
    found = {kind: _turned(list(ask(page)), f"{procedure_id} {kind}") for kind, ask in _ASKING.items()}
    chosen = {kind: texts[:1] or [_PLAIN[kind].format(page.title)] for kind, texts in found.items()}
    room = MOST - LEAST
    for kind, texts in found.items():
        if room and len(texts) > 1:
            chosen[kind] = texts[:2]
            room -= 1
    return tuple(Probe(kind, text) for kind, texts in chosen.items() for text in texts)


def _turned(texts: list[str], seed: str) -> list[str]:
    """The same texts from another beginning, so that two like procedures do not get the same ones."""
    if not texts:
        return texts
    start = crc32(seed.encode()) % len(texts)
    return texts[start:] + texts[:start]


def _past_and_future(page: PageFacts) -> Iterator[str]:
    for title in page.before[:1]:
        yield (
            f"{page.a_piece} comes to you from {title}. What do you see on it that tells how it went there, "
            "and how it will go here?"
        )
    for title in page.following[:1]:
        yield f"When it goes wrong in {title}, how do you tell whether it was wrong already when it left you?"
    for when, what in page.revisions[-1:]:
        yield (
            f"It was not always done so ({when} - {what}). How was it done before, and what did one have "
            "to know then that nobody knows any more?"
        )


def _big_picture(page: PageFacts) -> Iterator[str]:
    if len(page.steps) >= 3:
        yield (
            f"Of the {len(page.steps)} steps of {page.title}: at which one would you stand beside a newcomer, "
            "and at which would you let him go wrong?"
        )
    if page.product:
        yield (
            f"Of all that is done in {page.title}, what does one still see, hear or feel on the finished "
            f"{page.product}, and what after ten years?"
        )
    for point in page.points_without_reason[:1]:
        yield f"{point} - what happened when somebody did not?"


def _noticing(page: PageFacts) -> Iterator[str]:
    for bad in page.told_bad[:1]:
        yield f"Long before it comes to this: {bad}. What do you notice first, that others do not?"
    for machine in page.named(Machine)[:1] if "sound" not in page.senses else ():
        yield (
            f"You hear the {machine} from the next room. What does it sound like when it goes well, and what a "
            "minute before it goes wrong?"
        )
    for name, how in page.judged_settings[:1]:
        yield f"The {name} is {how}. With a piece you have never had in hand, how do you find it?"
    if page.barest_step:
        yield f"{page.barest_step} - what do you look at there that a beginner does not look at?"


def _job_smarts(page: PageFacts) -> Iterator[str]:
    if page.time:
        yield f"It takes you {page.time}. Where does a beginner lose his time, and what do you not do that he does?"
    for tool in page.named(HandTool)[:1]:
        yield f"Take the {tool} in your hand. What is not as it was bought, and what does a beginner hold wrong?"
    for tooling in page.named(Tooling)[:1]:
        yield f"The {tooling} when it is new, and when it is nearly done: what do you do otherwise?"


def _improvising(page: PageFacts) -> Iterator[str]:
    for material in page.without_substitute(Material)[:1]:
        yield f"In the middle of a lot you are out of {material}. What have you taken instead, and how did it come out?"
    # Never a machine: to do without its guards and its extraction is not asked for.
    for tool in page.without_substitute(HandTool, Gauge, Tooling)[:1]:
        yield f"You have to do without the {tool}, and the pieces must go out. How have you done that?"


def _self_monitoring(page: PageFacts) -> Iterator[str]:
    for good, organ in page.told_good[:1]:
        yield f"{good} - how do you know that your own {organ} can still be trusted, late in the day or with a cold?"
    if page.time and page.piece != ANY_PIECE:
        yield "After how many pieces do you stop seeing what you do, and what do you do about it?"
    if page.several_hands:
        yield "You are not alone at it. How do you know, without a word, that the other one is not ready?"


def _anomalies(page: PageFacts) -> Iterator[str]:
    for name, _ in page.limits[:1]:
        yield (
            f"All was within its limits, the {name} too, and still you did not let the {page.piece} go. When "
            "was that, and why?"
        )
    if page.troubles:
        count = "one trouble" if page.troubles == 1 else f"{page.troubles} troubles"
        yield f"The page of {page.title} tells of {count}. Which have you had that is not among them?"
    if page.first_condition is not None:
        name, value = page.first_condition
        yield (
            f"Of {name} the page says {value}. When did you work outside of that, and what became of the "
            f"{page.piece}?"
        )
    else:
        yield f"What is different in {page.title} on a cold morning, in wet weather, after a week's rest?"


def _equipment(page: PageFacts) -> Iterator[str]:
    for name, gauge in [(name, gauge) for name, gauge in page.limits if gauge][-1:]:
        yield (
            f"By the {gauge} it is good ({name}), by your own judgement it is not. Which of them do you believe, "
            "and when was that?"
        )
    for machine in page.named(Machine)[:1]:
        yield f"What does the {machine} do that no book of instructions tells?"
    if page.first_setting is not None:
        name, value = page.first_setting
        yield f"The page says {value} for the {name}. When is that not the right figure?"
    for gauge in page.named(Gauge)[:1] if not page.limits else ():
        yield f"When did the {gauge} lead you astray, and how did you find out?"


_ASKING: Mapping[str, Callable[[PageFacts], Iterator[str]]] = {
    "past and future": _past_and_future,
    "big picture": _big_picture,
    "noticing": _noticing,
    "job smarts": _job_smarts,
    "opportunities and improvising": _improvising,
    "self-monitoring": _self_monitoring,
    "anomalies": _anomalies,
    "equipment difficulties": _equipment,
}
_PLAIN: Mapping[str, str] = {
    "past and future": "Somebody has begun {} and gone home. What tells you how far it is, and how it will come out?",
    "big picture": "What do you keep in mind all the while, whatever the hands are doing: {}?",
    "noticing": "What do you see, hear or smell in {} that others walk past?",
    "job smarts": "What do you do in {} that stands on no page, because it makes it easier?",
    "opportunities and improvising": "When have you done it otherwise than it is written, and it came out better: {}?",
    "self-monitoring": "When do you break off and say that today is not the day for it: {}?",
    "anomalies": "What is the strangest thing that has ever happened in {}?",
    "equipment difficulties": "Which tool has led you astray in {}, and how did you find out?",
}
KINDS = tuple(_ASKING)
"""The kinds of probe in the order in which they were published."""
