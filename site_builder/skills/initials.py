"""Initials on paper, and whom they mean."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TypeVar

from site_builder.notebook.model.people import Person

_Id = TypeVar("_Id", bound=str)
_PARTS = re.compile(r"[\s\-‐]+")


def initials(name: str) -> str:
    """``EC`` for Edda Corvane, ``ALB`` for Anna-Lena Berg."""
    return "".join(part[0] for part in _PARTS.split(name) if part and part[0].isalpha()).upper()


def meant_by(written: str, people: Mapping[_Id, Person]) -> tuple[str, ...]:
    """The ids of all whom an entry on paper may mean: by id, else by initials, else by any part of the name."""
    text = written.strip()
    letters = re.sub(r"[\s.]", "", text).upper()
    names = {str(id_): str(person.name) for id_, person in people.items()}
    if text in names:
        return (text,)
    return (tuple(id_ for id_, name in names.items() if letters and initials(name) == letters)
            or tuple(id_ for id_, name in names.items() if text.lower() in (name.lower(), *name.lower().split())))


__all__ = ["initials", "meant_by"]
