"""Initials on paper, and whom they mean."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import TypeVar

from site_builder.notebook.model.people import Person

_Id = TypeVar("_Id", bound=str)
_PARTS = re.compile(r"[\s\-‐]+")


_NO_NAME = frozenset({
    "the", "a", "an", "old", "young", "big", "little", "mr", "mrs", "ms", "miss", "dr", "prof", "sir", "master",
    "mister", "uncle", "aunt", "father", "mother", "brother", "sister", "herr", "frau",
})
"""What stands before a name and is none."""


def initials(name: str) -> str:
    """``EC`` for Edda Corvane, ``ALB`` for Anna-Lena Berg, ``KW`` for Mr. Karl Weber."""
    parts = [part for part in _PARTS.split(name) if part and part[0].isalpha()]
    own = [part for part in parts if part.lower().rstrip(".") not in _NO_NAME]
    return "".join(part[0] for part in own or parts).upper()


def first_name(name: str) -> str:
    """What somebody is called in the shop: the first word of the name, or all of it where that word is none."""
    first = name.split()[0] if name.split() else ""
    return name if first.lower().rstrip(".,") in _NO_NAME or len(first.rstrip(".")) < 2 else first


def meant_by(written: str, people: Mapping[_Id, Person]) -> tuple[str, ...]:
    """The ids of all whom an entry on paper may mean: by id, else by initials, else by any part of the name."""
    text = written.strip()
    letters = re.sub(r"[\s.]", "", text).upper()
    names = {str(id_): str(person.name) for id_, person in people.items()}
    if text in names:
        return (text,)
    return (tuple(id_ for id_, name in names.items() if letters and initials(name) == letters)
            or tuple(id_ for id_, name in names.items() if text.lower() in (name.lower(), *name.lower().split())))


__all__ = ["first_name", "initials", "meant_by"]
