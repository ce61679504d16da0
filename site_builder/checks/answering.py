"""How each question is answered: under which key of which entry, by what; and which were answered without a word.

A question stands at a line of the notebook; here it becomes a place in the tree of its file, so that a hand that knows
no YAML can answer it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import timedelta
from enum import StrEnum

from site_builder.amend import Plain, TreePath, entry_at, look_up, plain
from site_builder.analysis.analysis import Analysis
from site_builder.checks.weight import Weight, weight_of
from site_builder.notebook.answered import NO_HARM, NO_MATTER, NOT_KNOWN, Answered, read_answer
from site_builder.notebook.files import NotebookFile
from site_builder.notebook.finding import At, Finding, Level
from site_builder.notebook.model.entry import keys_of
from site_builder.notebook.reader import decode, read_bytes, read_text
from site_builder.notebook.tree import Map, Node, Seq

AGAIN = timedelta(days=365)
"""After so long it is asked again whether it really cannot hurt."""


class By(StrEnum):
    """What answers a question."""

    VALUE = "value"
    COUNT = "count"
    NAMED = "named value"
    """A name and a value, as one sets or keeps it."""
    WORDS = "words"
    LINES = "lines"
    """One or several, each on a line."""
    CADENCE = "cadence"
    THINGS = "things"
    THING = "thing"
    YES = "yes or no"
    CHOICE = "choice"
    PICTURE = "picture"
    LINE = "line"
    """More than one key: it is answered where it stands, at the line."""
    DAY = "day"


@dataclass(frozen=True, slots=True)
class Answer:
    """Under which key, by what; ``of`` names shelves or words to choose from; ``inner`` a key within the new entry."""

    key: str
    by: By
    label: str
    of: tuple[str, ...] = ()
    inner: str = ""


_TOOLS = ("machine", "hand-tool", "gauge", "tooling", "protection", "sample")
OF_CODE: Mapping[str, Answer] = {
    "because-asked": Answer("because", By.LINES, "The reason"),
    "part-asked": Answer("part", By.THING, "The part", ("part",)),
    "tools-asked": Answer("tools", By.THINGS, "The tools", _TOOLS),
    "materials-asked": Answer("materials", By.THINGS, "The materials", ("material",)),
    "ready-asked": Answer("ready", By.LINES, "What must be true before the first move"),
    "settings-asked": Answer("settings", By.NAMED, "What is set"),
    "good-asked": Answer("checks", By.LINES, "When it is good"),
    "feel-asked": Answer("feel", By.LINES, "What it is like when it goes well"),
    "beginners-asked": Answer("points", By.LINES, "What makes or breaks it"),
    "hazards-asked": Answer("hazards", By.LINES, "What can hurt"),
    "body-asked": Answer("hazards", By.LINES, "What it does to a body"),
    "harm-unlisted": Answer("hazards", By.LINES, "What can hurt"),
    "time-asked": Answer("time", By.VALUE, "For one piece", inner="each"),
    "troubles-asked": Answer("troubles", By.LINES, "What one sees when it goes wrong"),
    "yield-asked": Answer("yield", By.VALUE, "The share that is lost", inner="scrap"),
    "stand-asked": Answer("wait", By.VALUE, "How long it stands"),
    "feel-one-sided": Answer("bad", By.WORDS, "What it is like when it is bad"),
    "feel-no-sample": Answer("with", By.THINGS, "The pieces to learn it on", ("sample",)),
    "picture-asked": Answer("pictures", By.PICTURE, "A picture"),
    "look-cadence": Answer("when", By.CADENCE, "How often"),
    "act-cadence": Answer("when", By.CADENCE, "How often"),
    "ended-asked": Answer("until", By.WORDS, "The sign that it is enough"),
    "loop-most": Answer("times", By.COUNT, "How often at most"),
    "several-ends": Answer("wins", By.CHOICE, "Which decides",
                           ("first", "last", "clock", "count", "sign", "feel", "check", "state")),
    "trouble-causeless": Answer("cause", By.LINES, "The cause"),
    "fail-wayless": Answer("fails", By.WORDS, "What to do then"),
    "window-unanswered": Answer("above", By.WORDS, "What to do when it is missed"),
    "limit-unchecked": Answer("check", By.CADENCE, "How often it is looked at"),
    "maker-unsaid": Answer("maker", By.WORDS, "Who built it, which model, what year"),
    "upkeep-unsaid": Answer("upkeep", By.LINES, "What it needs"),
    "supplier-unsaid": Answer("supplier", By.WORDS, "Where to get another"),
    "properties-unsaid": Answer("properties", By.NAMED, "What stands on the plate"),
    "rated-unsaid": Answer("properties", By.VALUE, "How fast it may go", inner="rated speed"),
    "calibration-unsaid": Answer("calibration", By.CADENCE, "How often it is tried"),
    "life-unsaid": Answer("life", By.WORDS, "By what sign it is worn out or stale"),
    "sheet-none": Answer("sheet", By.WORDS, "The title of its safety data sheet"),
    "hazard-unworded": Answer("word", By.CHOICE, "How grave", ("danger", "warning", "caution", "notice")),
    "harm-unsaid": Answer("harm", By.WORDS, "What it does"),
    "never-unexplained": Answer("because", By.WORDS, "Why not"),
    "accident-unsaid": Answer("accident", By.LINES, "What to do first"),
    "hands-missing": Answer("missing", By.WORDS, "What to do if one is not there"),
    "checklist-none": Answer("checklist", By.LINES, "What the learner shows"),
    "skill-unproved": Answer("proof", By.COUNT, "How many good pieces", inner="pieces"),
    "refresh-unsaid": Answer("refresh", By.VALUE, "After how long"),
    "age-unsaid": Answer("age", By.VALUE, "From which age"),
    "born-unsaid": Answer("born", By.DAY, "Born"),
    "procedure-skillless": Answer("skill", By.THING, "The skill", ("skill",)),
    "picture-undescribed": Answer("shows", By.WORDS, "What it shows"),
    "time-unobserved": Answer("source", By.WORDS, "How it is known"),
    "value-disputed": Answer("is", By.CHOICE, "Which of them holds"),
    "products-asked": Answer("products", By.LINES, "What leaves the shop"),
    "question-noted": Answer("questions", By.WORDS, "The answer"),
    "value-ask": Answer("", By.VALUE, "The value"),
    "value-some": Answer("", By.VALUE, "The value"),
    "value-perhaps": Answer("", By.YES, "Does it hold"),
    "no-limits": Answer("", By.VALUE, "The value with its limits"),
    "word-vague": Answer("", By.WORDS, "The same, so that a newcomer knows how much"),
    "gallon-asked": Answer("", By.VALUE, "The value"),
    "grit-asked": Answer("", By.VALUE, "The grit"),
}
"""What answers a question of each kind. A kind that is not here is answered at the line: it takes more than one key."""


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in a file: the entry that a question is about, and what stands there now."""

    file: str
    entry: TreePath
    path: TreePath
    """Where the question stands itself: the entry, or a value in it."""
    stands: Plain | None
    """What the entry reads now; None where nothing stands there."""
    tree: Plain


def spot_of(analysis: Analysis, at: At) -> Spot | None:
    """Where in its file a question stands; None where the file cannot be read, or nothing begins there."""
    tree, places = analysis.once(("spots", at.path), lambda: _places(analysis, at.path))
    path = places.get((at.line, at.column))
    if path is None:  # within a text
        before = [column for line, column in places if line == at.line and column < at.column]
        path = places[at.line, max(before)] if before else None
    if tree is None or path is None:
        return None
    entry = path
    while entry and (entry_at(tree, entry) is None or (isinstance(look_up(tree, entry), list))):
        entry = entry[:-1]
    return Spot(at.path, entry, path, look_up(tree, entry), tree)


def asked_at(code: str, spot: Spot) -> tuple[TreePath, str]:
    """The entry under whose ``asked`` it stands what was said instead of an answer, and the key that is spoken of.

    Beside ``wait: ask`` that is the entry around it; of a value under a name of the shop's own, the value itself.
    """
    entry = spot.entry
    if spot.path == entry and entry and isinstance(entry[-1], str) and spot.stands in ("", "ask"):
        around = entry_at(spot.tree, entry[:-1])
        if around is not None and entry[-1] in keys_of(around) and isinstance(look_up(spot.tree, entry[:-1]), dict):
            return entry[:-1], entry[-1]
    model = entry_at(spot.tree, entry)
    known = OF_CODE.get(code)
    if known is not None and known.key:
        return entry, known.key if model is None or known.key in keys_of(model) else code
    if len(spot.path) > len(entry) and isinstance(spot.path[len(entry)], str):
        return entry, str(spot.path[len(entry)])
    return entry, model.MAIN if known is not None and model is not None and model.MAIN else code


def answered(code: str, spot: Spot) -> Answered | None:
    """What was said instead of an answer, if anything was."""
    entry, key = asked_at(code, spot)
    stands = look_up(spot.tree, entry)
    held = stands.get("asked") if isinstance(stands, dict) else None
    text = held.get(key) if isinstance(held, dict) else None
    return read_answer(text) if isinstance(text, str) else None


def open_ones(analysis: Analysis, findings: list[Finding]) -> list[Finding]:
    """Without the questions that were answered for good. What can hurt is never silenced but by *cannot hurt*, and
    that for a year."""
    asked = analysis.once("files with answers", lambda: frozenset(
        place.at.path for places in analysis.index.places.values() for place in places if place.entry.answered))
    if not asked:
        return findings
    return [one for one in findings if one.level is not Level.QUESTION or one.at.path not in asked
            or not _settled(analysis, one)]


def _settled(analysis: Analysis, finding: Finding) -> bool:
    spot = spot_of(analysis, finding.at)
    said = answered(finding.code, spot) if spot is not None else None
    if said is None:
        return False
    if weight_of(analysis, finding.code, finding.at) is Weight.HARM:
        return said.kind == NO_HARM and analysis.today <= said.on + AGAIN
    return said.kind in (NOT_KNOWN, NO_MATTER)


def _places(analysis: Analysis, path: str) -> tuple[Plain | None, Mapping[tuple[int, int], TreePath]]:
    item = NotebookFile(analysis.notebook.root / path, path)
    data, _ = read_bytes(item.file, item.path)
    if data is None:
        return None, {}
    text, _ = decode(data, path)
    reading = read_text(text, path)
    if len(reading.trees) != 1:
        return None, {}
    found: dict[tuple[int, int], TreePath] = {}
    _walk(reading.trees[0], (), found)
    return plain(reading.trees[0]), found


def _walk(node: Node, path: TreePath, found: dict[tuple[int, int], TreePath]) -> None:
    found.setdefault((node.at.line, node.at.column), path)
    if isinstance(node, Map):
        for key, value in node.items():
            _walk(value, (*path, str(key)), found)
            found.setdefault((key.at.line, key.at.column), (*path, str(key)))
    elif isinstance(node, Seq):
        for number, value in enumerate(node):
            _walk(value, (*path, number), found)
