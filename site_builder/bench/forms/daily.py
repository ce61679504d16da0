"""The lines that are written daily, in the trade's own words; every other key is called as its docstring calls it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from site_builder.bench.forms.fields import Field, Fill, fields_of
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.harm import Hazard, Never, Point
from site_builder.notebook.model.judging import Check, End, Loop, Remedy, Trouble
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.procedure import Step
from site_builder.notebook.model.small import MaterialUse, ToolUse


@dataclass(frozen=True, slots=True)
class Asked:
    """How a field is asked for."""

    label: str
    hint: str = ""
    rows: int = 0
    """Lines of the box; 0: as it fills best."""


_BECAUSE = Asked("Because", "Each reason on a line of its own.", 2)
_SOURCE = Asked("Where it comes from", "As from memory, measured, the maker, or who told it.")
_VALUE = "As 12 to 30 °C, at most 0.1 mm, about 6 min."

OWN: Mapping[type[Entry], Mapping[str, Asked]] = {
    Step: {"do": Asked("What to do", "As you would say it to somebody at the bench.", 3), "because": _BECAUSE},
    Limit: {"is": Asked("How much", _VALUE), "with": Asked("Measured with"), "because": _BECAUSE},
    Check: {"good": Asked("When it is good", "What one feels, sees or hears.", 2),
            "bad": Asked("When it is bad", "Each sign on a line of its own.", 2), "sense": Asked("By what"),
            "because": _BECAUSE},
    Hazard: {"hazard": Asked("What can hurt"), "word": Asked("How bad can it get?"),
             "harm": Asked("What it does", "", 2), "avoid": Asked("What keeps it away", "", 2), "wear": Asked("Wear")},
    Trouble: {"sign": Asked("What one sees", "", 2), "cause": Asked("Why", "The likeliest first, each on a line.", 2),
              "do": Asked("What to do", "What is tried first, each on a line.", 2), "then": Asked("Then")},
    Never: {"do": Asked("What must never be done", "", 2), "because": Asked("Because", "Why not.", 2)},
    Point: {"point": Asked("What makes or breaks it", "", 2), "because": _BECAUSE},
    Picture: {"file": Asked("The picture", "From the camera, or from the disk."),
              "shows": Asked("What does one see on it?", "", 2)},
    Remedy: {"do": Asked("What to do", "", 2), "means": Asked("What it means for the work", "", 2),
             "then": Asked("Then")},
    End: {"sign": Asked("By what sign it is enough", "", 2)},
    Loop: {"times": Asked("How often", "As 3, or about 2 and at most 5."), "from": Asked("From which step")},
    ToolUse: {"tool": Asked("Which tool"), "amount": Asked("How many")},
    MaterialUse: {"material": Asked("Which material"), "amount": Asked("How much", "As 9 g per piece.")},
}
"""The first things asked of an entry, in this order."""

HEADS: Mapping[str, str] = {
    "steps": "The steps", "points": "What makes or breaks it", "settings": "What it is set to",
    "limits": "The limits", "conditions": "Around the work", "wait": "It stands", "windows": "From when, until when",
    "feel": "How it feels", "checks": "What is looked at", "hazards": "What can hurt", "never": "Never",
    "troubles": "When it goes wrong", "tools": "Tools", "materials": "Materials", "pictures": "Pictures",
    "until": "Until", "repeat": "Done again", "time": "How long it takes", "ready": "Before the first move",
    "because": "Why", "questions": "Still to ask", "also": "Within it", "after": "Done before", "hands": "Hands",
    "yield": "What is lost", "keep": "What is kept", "words": "Words of the shop", "products": "What leaves the shop",
    "parts": "Parts", "checklist": "What the learner shows", "upkeep": "What it needs", "life": "When it is worn",
    "properties": "What it is and bears", "sizes": "Sizes", "below": "Too little", "above": "Too much",
    "check": "How often it is looked at", "fails": "If it fails", "age": "From which age", "papers": "Papers",
    "of": "Put together from", "accident": "When somebody is hurt", "calibration": "Whether it reads true",
    "customers": "Whom it is made for", "sheet": "Safety data sheet", "proof": "What must be in the books",
    "refresh": "Stale without practice", "needs": "What must be held first",
}
ADD: Mapping[str, str] = {
    "points": "a point", "settings": "a setting", "limits": "a limit", "wait": "a wait", "feel": "a feel",
    "hazards": "a hazard", "never": "a “never”", "troubles": "a trouble", "tools": "a tool",
    "materials": "a material", "until": "when it is enough", "repeat": "going round again", "checks": "a check",
    "conditions": "a condition", "time": "how long it takes", "ready": "what comes before",
    "after": "what is done first",
    "words": "a word", "products": "a product", "parts": "a part", "checklist": "something to show",
    "properties": "what it bears", "upkeep": "upkeep", "sizes": "a size", "below": "what to do if it is too little",
    "above": "what to do if it is too much", "check": "how often it is looked at", "life": "when it is worn out",
    "calibration": "whether it reads true", "fails": "what to do if it fails", "sheet": "its safety data sheet",
    "pictures": "a picture", "customers": "a customer", "papers": "a paper", "age": "a least age", "proof": "a proof",
    "yield": "what is lost", "hands": "hands", "windows": "a window", "needs": "what must be held first",
}
"""What can be added by a word; the rest is called as its docstring calls it."""

NAMES_OF_VALUES: Mapping[str, str] = {
    "limits": "What is measured", "settings": "What is set", "conditions": "What must be so",
    "properties": "What it is", "sizes": "Which size", "words": "The word", "windows": "Which time",
    "products": "What it is called", "parts": "What it is called", "customers": "Who it is", "of": "Which part",
}


def base_of(model: type[Entry]) -> Mapping[str, Asked]:
    """What is asked first of this kind of entry."""
    return next((OWN[one] for one in model.__mro__ if one in OWN), {})


def first_and_rest(model: type[Entry]) -> tuple[tuple[Field, ...], tuple[Field, ...]]:
    """The fields of a form that are open at once, and those that open at a touch."""
    lines = {one.key: one for one in fields_of(model) if one.is_line}
    own = [key for key in base_of(model) if key in lines]
    rings = own or [key for key in (model.RINGS[0] or ()) if key in lines]
    first = [*rings, *(key for key, one in lines.items() if one.needed and key not in rings)] or [*lines][:4]
    return tuple(lines[key] for key in first), tuple(one for key, one in lines.items() if key not in first)


def asked(model: type[Entry], field: Field) -> Asked:
    """How a field of an entry is asked for."""
    own = base_of(model).get(field.key)
    if own is not None:
        return own
    if field.key == "source":
        return _SOURCE
    if field.key == "because":
        return _BECAUSE
    hint = {Fill.LINES: "Each on a line of its own.", Fill.DAY: "As 2026-11-28, or the year alone.",
            Fill.CADENCE: "As each piece, every 10 pieces, every 2 h, start of day."}.get(field.fill, "")
    return Asked(field.label, hint, 2 if field.fill in (Fill.WORDS, Fill.LINES) else 0)


def children_of(model: type[Entry]) -> tuple[Field, ...]:
    """The fields that have a form of their own, those with a short word first."""
    found = [one for one in fields_of(model) if not one.is_line]
    return tuple(sorted(found, key=lambda one: one.key not in ADD))


def head_of(field: Field) -> str:
    """How the lines under a key are headed."""
    return HEADS.get(field.key, field.label)
