"""Where a question stands: the work, the step with its words, what is said there so far."""

from __future__ import annotations

from dataclasses import dataclass

from site_builder.amend import Plain, look_up
from site_builder.bench.asking import Open
from site_builder.bench.forms.daily import HEADS
from site_builder.bench.spoken_values import value_words
from site_builder.bench.visit import Visit


@dataclass(frozen=True, slots=True)
class Place:
    """What is shown in the margin beside a question."""

    title: str
    number: str
    do: str
    lines: tuple[tuple[str, str], ...]
    """What stands beside the gap: a name and its value."""
    gap: str
    why: str


def where_it_stands(visit: Visit, found: Open) -> Place:
    """The surroundings of a question, as written."""
    spot, title = found.spot, visit.names.thing(found.weighed.question.about)
    why = visit.names.plainly(found.weighed.question.why)
    if spot is None:
        return Place(title, "", "", (), "", why)
    number, do, step = "", "", spot.tree
    if spot.path[:1] == ("steps",) and len(spot.path) > 1 and isinstance(spot.path[1], int):
        number, step = str(spot.path[1] + 1), look_up(spot.tree, spot.path[:2]) or ""
        do = step if isinstance(step, str) else str(step.get("do", "")) if isinstance(step, dict) else ""
    label = found.answer.label if found.answer is not None else ""
    names = [str(one) for one in spot.entry if isinstance(one, str) and one not in ("steps", "limits", "settings")]
    of_value = bool(names) and names[-1] not in HEADS and not (found.answer and found.answer.key)
    gap = f"{names[-1][:1].upper()}{names[-1][1:]}" if of_value else label
    return Place(title, number, " ".join(do.split()), tuple(_beside(step)) if number else (), gap, why)


def _beside(step: Plain) -> list[tuple[str, str]]:
    lines = []
    if isinstance(step, dict):
        for key in ("settings", "conditions", "limits"):
            held = step.get(key)
            if isinstance(held, dict):
                for name, value in held.items():
                    told = value if isinstance(value, str) else value.get("is") if isinstance(value, dict) else None
                    if isinstance(told, str) and told not in ("", "ask"):
                        lines.append((name, value_words(told)))
    return lines[:6]
