"""A skill that nobody may teach any more: what of it is written, who can still do it, and what must be found anew."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from site_builder.notebook.references import References
from site_builder.notebook.told import Told
from site_builder.notebook.tree import Text
from site_builder.skills.ages import procedures_of
from site_builder.skills.loss import NOBODY, Knowledge

MATTERS: tuple[tuple[tuple[str, ...], str], ...] = (
    (("limits", "checks", "until"), "how one knows that it is good"),
    (("feel",), "what good and bad feel like"),
    (("settings", "conditions"), "how fast, how hot, how much"),
    (("tools", "materials"), "with what it is done"),
    (("points",), "what beginners get wrong"),
    (("troubles",), "what goes wrong, and the way back"),
    (("hazards", "never"), "what can hurt"),
    (("because",), "why it is done"),
    (("time",), "how long it takes"),
)
"""Keys of which a procedure tells at least one of each row, or else what nobody can read up."""


@dataclass(frozen=True, slots=True)
class Written:
    """What is written of one procedure: how many steps, its open questions, and what it does not tell."""

    procedure: str
    steps: int
    questions: int
    untold: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Recovery:
    """A skill without a teacher. ``able`` can still do it alone; ``resting`` could once.

    ``questions`` are those of the skill itself; ``items`` of its checklist say what somebody had to show.
    """

    skill: str
    able: tuple[str, ...]
    resting: tuple[str, ...]
    written: tuple[Written, ...]
    questions: tuple[Text, ...]
    items: int


def recoveries(references: References, told: Mapping[str, Told], knowledge: Knowledge) -> tuple[Recovery, ...]:
    """Every skill that nobody here may teach, in the order of the notebook."""
    found = []
    for id_, skill in references.notebook.skills.items():
        if knowledge.teachers.get(id_):
            continue
        found.append(Recovery(
            id_, _in_order(knowledge, knowledge.able.get(id_, NOBODY)),
            _in_order(knowledge, knowledge.resting.get(id_, NOBODY)),
            tuple(_written(told[one]) for one in procedures_of(references, skill) if one in told),
            skill.questions, len(skill.checklist),
        ))
    return tuple(found)


def _in_order(knowledge: Knowledge, people: frozenset[str]) -> tuple[str, ...]:
    return tuple(one for one in knowledge.people if one in people)


def _written(told: Told) -> Written:
    procedure = told.procedure
    asked = len(procedure.questions) + sum(len(step.questions) for step in procedure.steps) + len(told.asked)
    untold = tuple(words for keys, words in MATTERS if not told.knows(*keys))
    return Written(str(procedure.procedure), len(procedure.steps), asked, untold)
