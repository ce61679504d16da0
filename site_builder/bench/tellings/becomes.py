"""What a sentence of a telling can become: where it is written, and what is asked for it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Shape = Literal["step", "named", "value", "words", "thing", "because", "remedy", "word", "note"]


@dataclass(frozen=True, slots=True)
class Becomes:
    """One kind: its name in the form, the key of the step or procedure, the main key, and how it is shaped.

    ``named`` has a name and a figure, ``value`` a figure alone, ``thing`` a tool or material of the notebook.
    """

    kind: str
    label: str
    shape: Shape
    key: str = ""
    main: str = ""
    asks: tuple[str, ...] = ()
    """What is asked besides the words: ``value``, ``name``, ``thing``, ``because``."""

    @property
    def words_label(self) -> str:
        """How the words are asked for."""
        return _WORDS.get(self.kind, "In words")


_WORDS = {
    "step": "What to do", "feel": "When it is good", "check": "When it is good", "hazard": "What can hurt",
    "trouble": "What one sees", "never": "What must never be done", "loop": "By what sign it is enough",
    "reason": "Why", "remedy": "What helps", "word": "What it means", "history": "How it came to be",
    "protection": "What protects, and when", "person": "Who does it",
}
_ALL = (
    Becomes("step", "a step", "step", "steps", "do", ("because",)),
    Becomes("limit", "a limit", "named", "limits", "is", ("name", "value", "because")),
    Becomes("setting", "a setting", "named", "settings", "is", ("name", "value", "because")),
    Becomes("wait", "a wait", "value", "wait", "is", ("value", "because")),
    Becomes("window", "a window of time", "named", "windows", "is", ("name", "value", "because")),
    Becomes("feel", "a feel", "words", "feel", "good"),
    Becomes("reason", "a reason", "because"),
    Becomes("hazard", "a hazard", "words", "hazards", "hazard", ("because",)),
    Becomes("trouble", "a trouble", "words", "troubles", "sign", ("because",)),
    Becomes("remedy", "what helps", "remedy", "troubles", "do"),
    Becomes("branch", "an “if”", "words", "points", "point", ("because",)),
    Becomes("loop", "going round again", "words", "until", "sign"),
    Becomes("material", "a material", "thing", "materials", "material", ("thing", "value")),
    Becomes("tool", "a tool", "thing", "tools", "tool", ("thing",)),
    Becomes("check", "a check", "words", "checks", "good", ("because",)),
    Becomes("amount", "an amount", "thing", "materials", "material", ("thing", "value")),
    Becomes("protection", "what protects", "words", "points", "point", ("because",)),
    Becomes("never", "a “never”", "words", "never", "do", ("because",)),
    Becomes("person", "who does it", "words", "points", "point", ("because",)),
    Becomes("time", "how long it takes", "value", "time", "each", ("value",)),
    Becomes("word", "a word of the shop", "word", "words", "means", ("name",)),
    Becomes("history", "how it came to be", "note"),
)
BECOMES = {one.kind: one for one in _ALL}
"""By kind, in the order in which they are offered."""
