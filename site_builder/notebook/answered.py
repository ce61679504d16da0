"""What was answered to a question that has no answer to write: ``not known; edda; 2026-11-28``."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import date
from typing import Literal

Kind = Literal["not known", "ask", "does not matter", "cannot hurt"]
NOT_KNOWN, ASK, NO_MATTER, NO_HARM = "not known", "ask", "does not matter", "cannot hurt"

_FORM = re.compile(r"(not known|does not matter|cannot hurt|ask (?P<whom>[^;]+?)) ?; ?(?P<who>[^;]+?) ?; ?"
                   r"(?P<on>\d{4}-\d{2}-\d{2})")


@dataclass(frozen=True, slots=True)
class Answered:
    """Who said on which day that it is not known, that another may know it, or that it does not matter here."""

    kind: Kind
    who: str
    """An id, or a name from outside."""
    on: date
    whom: str = ""
    """Whom to ask."""

    @property
    def text(self) -> str:
        """As it is written."""
        return f"{self.kind}{f' {self.whom}' if self.whom else ''}; {self.who}; {self.on.isoformat()}"


def read_answer(text: str) -> Answered | None:
    """What such a text says; None where it is none."""
    found = _FORM.fullmatch(" ".join(text.split()))
    if found is None:
        return None
    try:
        on = date.fromisoformat(found["on"])
    except ValueError:
        return None
    kind: Kind = "ask" if found["whom"] else found[1]  # type: ignore[assignment]
    return Answered(kind, found["who"].strip(), on, (found["whom"] or "").strip())


def renamed_in_answer(text: str, old: str, new: str) -> str:
    """The same answer where somebody has another id; as it is where it names somebody else or cannot be read."""
    said = read_answer(text)
    if said is None or old not in (said.who, said.whom):
        return text
    return replace(said, who=new if said.who == old else said.who, whom=new if said.whom == old else said.whom).text
