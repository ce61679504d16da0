"""How well a telling is understood, held against marks that were set by hand on every cue.

A folder holds pairs ``NAME.vtt`` and ``NAME.marks.json``: of each cue its kinds (several may be right), the quantities
said in it with their meaning in the notation, and which cues it takes back; ``scale`` where the shop's is known.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from site_builder.quantity import NotationError, base_amount, parse_cadence, parse_value
from site_builder.quantity.units import Unit
from site_builder.quantity.value import Clause, Limits, Quantity, Range, Scaled
from site_builder.tellings.kinds import Understood, understand
from site_builder.tellings.spoken import Spoken
from site_builder.tellings.transcript import read_transcript

CASES = Path(__file__).parent / "cases"
OTHER_TRADES = Path(__file__).parent / "other_trades"
"""Short tellings of our own: ``developed`` on, or ``measured`` only."""


@dataclass
class Figures:
    """Counts of one telling, or of several added up; ``misses`` tells what went wrong, a line each."""

    said: int = 0
    right: int = 0
    wrong: int = 0
    beside: int = 0
    """Found where nothing is marked."""
    found: int = 0
    cues: int = 0
    kind_right: int = 0
    talk_right: int = 0
    taken_back: int = 0
    taken_back_right: int = 0
    taken_back_false: int = 0
    misses: list[str] = field(default_factory=list)

    def __add__(self, other: Figures) -> Figures:
        return Figures(*(getattr(self, name) + getattr(other, name) for name in self.__dataclass_fields__))

    @property
    def shares(self) -> dict[str, float]:
        """Percent, by what they say."""
        return {
            "quantities right": _percent(self.right, self.said),
            "quantities wrong": _percent(self.wrong, self.said),
            "found beside the marks": _percent(self.beside, self.found),
            "first kind among the marked": _percent(self.kind_right, self.cues),
            "talk told from content": _percent(self.talk_right, self.cues),
            "takings back recognised": _percent(self.taken_back_right, self.taken_back),
        }


def _percent(part: int, whole: int) -> float:
    return round(100 * part / whole, 1) if whole else 100.0


def measured(folder: Path = CASES) -> dict[str, Figures]:
    """The figures of each telling in a folder, by its name."""
    return {marks.name.removesuffix(".marks.json"): _one(marks) for marks in sorted(folder.glob("*.marks.json"))}


def added_up(folder: Path) -> Figures:
    """The figures of all tellings in a folder together."""
    return sum(measured(folder).values(), Figures())


def _one(marks: Path) -> Figures:
    cues = read_transcript(marks.with_name(marks.name.replace(".marks.json", ".vtt")).read_text("utf-8")).cues
    case = json.loads(marks.read_text("utf-8"))
    marked = {row["cue"]: row for row in case["cues"]}
    understood = understand(cues, scale=case.get("scale", ""))
    figures = Figures(cues=len(marked))
    for n, one in enumerate(understood):
        row = marked[one.cue.id]
        following = f" {understood[n + 1].cue.text}" if n + 1 < len(understood) else ""
        _quantities(figures, one, row, following)
        first = one.kinds[0]
        figures.kind_right += first in row["kind"]
        if first not in row["kind"]:
            figures.misses.append(
                f"{one.cue.id} kind {' '.join(one.kinds[:3])} for {' '.join(row['kind'])}: {one.cue.text}"
            )
        figures.talk_right += (first == "talk") == (row["kind"] == ["talk"])
        targets = set(row["takes_back"])
        told = set(one.takes_back)
        figures.taken_back += bool(targets)
        figures.taken_back_right += bool(targets & told)
        figures.taken_back_false += bool(told - targets)
        if targets != told:
            figures.misses.append(f"{one.cue.id} takes back {sorted(told)} for {sorted(targets)}: {one.cue.text}")
    return figures


def _quantities(figures: Figures, one: Understood, row: dict[str, Any], following: str) -> None:
    left = list(one.quantities)
    touched: set[int] = set()
    figures.said += len(row["values"])
    figures.found += sum(spoken.known for spoken in left)
    text = one.cue.text + following
    for value in row["values"]:
        start = text.find(value["text"])
        near = [
            n
            for n, spoken in enumerate(left)
            if start < 0 or (spoken.start < start + len(value["text"]) and start < spoken.end)
        ]
        same = next((n for n in near if n not in touched and same_meaning(left[n], value["value"])), None)
        if same is not None:
            touched.add(same)
            figures.right += 1
            continue
        told = [left[n] for n in near if left[n].known and n not in touched]
        figures.wrong += bool(told)
        touched |= {n for n in near if left[n].known and len(told) == 1}
        heard = ", ".join(spoken.notation for spoken in told) or "nothing"
        figures.misses.append(f"{one.cue.id} said `{value['text']}` = {value['value']}, heard {heard}: {text}")
    everywhere = [(text.find(value["text"]), len(value["text"])) for value in row["values"]]
    for n, spoken in enumerate(left):
        beside = (
            spoken.known
            and n not in touched
            and not any(spoken.start < start + length and start < spoken.end for start, length in everywhere)
        )
        figures.beside += beside
        if beside:
            figures.misses.append(f"{one.cue.id} beside: {spoken.notation}: {one.cue.text}")


def same_meaning(spoken: Spoken, meant: str) -> bool:
    """Whether it says the same as a value in the notation; what is counted, or multiplied, may have a longer name."""
    if not spoken.known:
        return False
    return _meaning(spoken.notation) == _meaning(meant)


def _meaning(text: str) -> object:
    nouns = frozenset(word for word in text.lower().split() if word.isalpha())
    singular = frozenset(noun[: -len(end)] for noun in nouns for end in ("s", "es") if noun.endswith(end))
    try:
        value = parse_value(text, nouns | singular)
    except NotationError:
        try:
            return parse_cadence(text)
        except NotationError:
            return text
    return value.perhaps, _reduced(value.what)


def _reduced(what: object) -> object:
    """Amounts in their base units, whatever they were written in; clauses in any order."""
    if isinstance(what, Quantity):
        unit: Unit = what.parts[0].unit
        return "amount", base_amount(what), "counted" if unit.counted else unit.dimensions, what.per
    if isinstance(what, Range):
        return "range", _reduced(what.low), _reduced(what.high)
    if isinstance(what, Scaled):
        return what.factor.exact, what.percent, what.reference.name.split()[-1]
    if isinstance(what, Clause):
        return what.lead, what.rough, what.perhaps, _reduced(what.what)
    if isinstance(what, Limits):
        return frozenset(map(_reduced, what.clauses))
    return what


def told(figures: dict[str, Figures], total: bool = True) -> Iterator[str]:
    """The table, a line at a time; with all of them added up."""
    columns = {**figures, "all": sum(figures.values(), Figures())} if total else figures
    yield f"{'percent':<30}" + "".join(f"{name:>10}" for name in columns)
    for key in Figures().shares:
        yield f"{key:<30}" + "".join(f"{one.shares[key]:>10}" for one in columns.values())
    for label, key in (
        ("takings back not marked", "taken_back_false"),
        ("quantities marked", "said"),
        ("cues", "cues"),
    ):
        yield f"{label:<30}" + "".join(f"{getattr(one, key):>10}" for one in columns.values())
