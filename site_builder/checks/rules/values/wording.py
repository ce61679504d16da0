"""Questions to the master in plain words: what a value is, of what, and in which case."""

from __future__ import annotations

import re
from collections.abc import Mapping

from site_builder.checks.known_names import TIME
from site_builder.checks.rules.values.kinds import OF_NAME
from site_builder.notebook.index import Place
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.judging import Remedy
from site_builder.notebook.model.limit import Limit, Window
from site_builder.notebook.model.procedure import Procedure, Step
from site_builder.notebook.model.shop import Part
from site_builder.notebook.model.small import MaterialUse, ToolUse
from site_builder.notebook.model.things import Thing
from site_builder.quantity.nouns import is_plural

_LONGEST = 90
_HEAD = re.compile(r" (?:of|in|on|at|for|from|to|over|under|between|round|after|before|with)\b")
SIDES: Mapping[str, str] = {"min": "at least", "over": "at least", "max": "at most", "under": "at most"}
"""Words for the sides of a limit, by its leading word."""

# A value without a name of the shop's own, by its key; a Time and an End have keys that others have too.
_UNNAMED: Mapping[str, str] = {
    "wait": "how long may it stand afterwards",
    "load": "how much goes in at once",
    "age": "from which age may one do it",
    "refresh": "after how long without practice must it be shown anew",
    "agreement": "how often must two hands agree",
    "clock": "how long does it take until it is over",
    "count": "after how many is it over",
    "times": "how often at most",
    "amount": "how much of it is used",
    "scrap": "how large a share is lost",
    "rework": "how large a share is done again",
    "returns": "how much metal goes back to the pot",
    "setup": "how long does it take to get ready",
    "each": "how long does one piece take",
    "lot": "how long does the whole lot take",
    "share": "how large a share must be good",
    "valid": "how long is it good for",
    "pieces": "how many pieces",
    "hours": "how many hours are worked",
    "learning": "how many hours a week are there for lessons",
    "lessons": "how many hours of teaching does it take until alone",
    "took": "how long did it take",
}
_UNNAMED_IN: Mapping[tuple[str, str], str] = {
    ("Time", "load"): "how long does one load take",
    ("Hands", "count"): "how many hands does it take",
}
# Keys that hold words, ids or lists, written down empty.
_WORDS: Mapping[str, str] = {
    "title": "what is it called", "name": "what is the name",
    "because": "why",
    "cause": "why does it happen",
    "do": "what is to be done",
    "avoid": "how does one keep whole",
    "word": "how badly can it hurt somebody",
    "harm": "what does it do to somebody",
    "hazards": "what can hurt here",
    "wear": "what must one wear against it",
    "away": "who must keep away",
    "good": "what does good look like",
    "bad": "what does bad look like",
    "feel": "what does good feel like, and what does bad",
    "sign": "how does one know it",
    "means": "what does it mean for the work",
    "then": "where does the work go on",
    "below": "what is to be done when it is below",
    "above": "what is to be done when it is above",
    "fails": "what is to be done when it fails",
    "missing": "what is to be done when one of them is missing",
    "check": "how often is it looked at",
    "when": "how often",
    "until": "how does one know that it is done",
    "repeat": "how often is it done again",
    "time": "how long does it take",
    "after": "what must be done before",
    "skill": "what must one hold to do this alone",
    "hands": "how many hands does it take",
    "tools": "with what is it done",
    "materials": "of what, and how much of it",
    "with": "what is it measured with",
    "tool": "on what is it set",
    "who": "who",
    "source": "where does one know it from",
    "maker": "who built it",
    "supplier": "where does one get another",
    "where": "where is it",
    "write": "what is written down",
    "keep": "what is kept",
    "decided": "when is it decided",
    "covers": "what can one do who has it",
    "checklist": "what must the learner show",
    "troubles": "what goes wrong",
    "points": "what do beginners get wrong",
    "upkeep": "what does it need, and how often",
    "calibration": "how does one know that it reads true",
    "life": "when is it worn, and what then",
    "sheet": "which safety data sheet belongs to it",
    "yield": "how many fail",
    "wins": "which of them decides",
}
# Of what is done when a line was crossed: what the question asks after the words that say which line.
_CROSSED: Mapping[str, str] = {
    "do": "what is to be done then", "means": "what does it mean for the work", "then": "where does the work go on",
}


def name_of(place: Place) -> str:
    """The shop's own name of a value; of a cell or a saying that of its limit. Empty where it has none."""
    for outer in place.up():
        if outer.name is not None:
            return str(outer.name)
        if not isinstance(outer.entry, Limit):
            break
    return ""


def key_of(place: Place, key: str) -> str:
    """The key that tells what a value is: of a limit, a cell or a saying the one the limit stands under."""
    while isinstance(place.entry, Limit) and place.parent is not None:
        key, place = place.key, place.parent
    return key.rstrip("_")


def subject(place: Place) -> str:
    """What the question is about: the nearest step, trouble, tool … in its own words."""
    for outer in place.up():
        entry = outer.entry
        told = "" if isinstance(entry, Limit) else _told(entry)
        if told:
            return told
    return place.owner_id


def about(place: Place, things: Mapping[str, Thing]) -> str:
    """The subject in quotes, or the number of a step that says nothing yet.

    Of a tool or material that is used its title, and for which work.
    """
    use = place.entry
    own = place.owner
    if isinstance(use, Step) and isinstance(own, Procedure) and id(use) in own.numbers and not _told(use):
        return f"Step {own.numbers[id(use)]} of “{_short(str(own.title))}”"
    if not isinstance(use, ToolUse | MaterialUse):
        return f"“{subject(place)}”"
    id_ = str(use.tool if isinstance(use, ToolUse) else use.material)
    title = str(things[id_].title) if id_ in things else id_
    return f"“{title}” for “{_short(str(place.owner.title))}”" if isinstance(place.owner, Procedure) else f"“{title}”"


def case(place: Place) -> str:
    """The row and the variant in which the value holds: ` at 12..18 °C`, ` (spring)`, ` for pattern deck`."""
    rows = [f" at {row}" if row[:1].isdigit() or row.split()[0] in ("under", "over", "min", "max") else f" ({row})"
            for outer in place.up() if isinstance(outer.entry, Limit) for row in outer.rows]
    conditions = [
        " for " + ", or ".join(
            " and ".join(f"{name} {' or '.join(values)}" for name, values in choice.items())
            for choice in outer.entry.for_
        )
        for outer in place.up() if isinstance(outer.entry, Limit) and outer.entry.for_
    ]
    return "".join((*rows, *conditions))


def thing(place: Place, key: str = "") -> str:
    """The value itself, as a subject of a sentence: `the pot life of “Two-part filler”`."""
    name = name_of(place)
    if not name:
        return f"`{key_of(place, key)}` at “{subject(place)}”"
    return f"the {name.removeprefix('the ')}{_of(place)}{case(place)}"


def question(
    place: Place, key: str, kind: str | None = None, side: str = "", *, things: Mapping[str, Thing]
) -> str:
    """What to ask for a value that is not told. ``side``: `at most`, `at least` or nothing."""
    name, side = name_of(place), side and f" {side}"
    if key == "given":
        return f"“{subject(place)}”: under which conditions does {thing(place)} hold?"
    if key_of(place, key) == "windows":
        return f"“{subject(place)}”: how long may “{name}” take{side}{case(place)}?"
    if not name:
        key = key_of(place, key)
        asked = _UNNAMED_IN.get((type(place.entry).__name__, key)) or _UNNAMED.get(key) or f"what is its {key}"
        return f"{about(place, things)}: {asked.removesuffix(side)}{side}{case(place)}?"
    is_time = (kind or OF_NAME.get(name, ("",))[0]) in TIME
    asked = f"{'how long' if is_time else 'what'} {is_or_are(name)} the {name.removeprefix('the ')}"
    if isinstance(place.owner, Procedure):
        return f"“{subject(place)}”: {asked}{side}{case(place)}?"
    return f"{asked[0].upper()}{asked[1:]}{_of(place)}{side}{case(place)}?"


def question_for_key(place: Place, key: str, things: Mapping[str, Thing]) -> str:
    """What to ask for a key of words that was written down empty."""
    outer = place.parent
    if isinstance(place.entry, Remedy) and outer is not None and key in _CROSSED:
        crossed = _crossed(outer, place.key)
        if crossed:
            return f"“{subject(outer)}”: {crossed}, {_CROSSED[key]}?"
    of = thing(place) if isinstance(place.entry, Limit) and name_of(place) else about(place, things)
    asked = _WORDS.get(key) or _UNNAMED.get(key) or f"what belongs under `{key}`"
    return f"{of[0].upper()}{of[1:]}: {asked}?"


def is_or_are(name: str) -> str:
    """The verb that a value's name takes: `the depth is`, `the ends of the silk are`."""
    return "are" if is_plural(_HEAD.split(name, maxsplit=1)[0]) else "is"


def _crossed(place: Place, key: str) -> str:
    """Which line was crossed, or what was not as it should be; empty where the remedy hangs on something else."""
    if key == "fails":
        return "it is not so"
    if key not in ("below", "above") or not isinstance(place.entry, Limit):
        return ""
    name = name_of(place)
    if isinstance(place.entry, Window) or key_of(place, "") in ("wait", "windows"):
        gone = "has not been long enough" if key == "below" else "has been too long"
        return f"the {name.removeprefix('the ')} {gone}" if name else f"it {gone.replace('been', 'stood')}"
    return f"the {name.removeprefix('the ')} {is_or_are(name)} {key} what is right" if name else ""


def _of(place: Place) -> str:
    part = next((outer.entry for outer in place.up() if isinstance(outer.entry, Part)), None)
    owner = part if part is not None else place.owner
    return f" of “{owner.title}”" if isinstance(owner, Part | Thing) else ""


def _told(entry: Entry) -> str:
    """The main words of an entry, not too long: what is done, seen, or called."""
    for key in (type(entry).MAIN, "title", "name", "sign"):
        words = getattr(entry, key, None) if key else None
        if isinstance(words, str) and words:
            return _short(words)
    return ""


def _short(words: str) -> str:
    words = " ".join(words.split()).rstrip(".")
    return words if len(words) <= _LONGEST else f"{words[:_LONGEST].rsplit(' ', 1)[0].rstrip(',;.')} …"
