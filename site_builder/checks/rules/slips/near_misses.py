"""Rules on names that come near another one."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from functools import partial
from typing import Any

from site_builder.analysis.analysis import Analysis
from site_builder.checks.known_names import TOPICS
from site_builder.checks.rule import Rule
from site_builder.checks.rules.texts.wanted import words_of_steps
from site_builder.checks.rules.values.names import all_names
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model import small
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.harm import Hazard, Never, Point
from site_builder.notebook.model.judging import Check, End, Trouble
from site_builder.notebook.model.limit import By, Limit, Window
from site_builder.notebook.model.people import Show
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.records import Record
from site_builder.notebook.nearest import slip_of
from site_builder.notebook.reference_keys import PROCEDURE
from site_builder.notebook.references import step_of
from site_builder.notebook.slips import plain, slips
from site_builder.notebook.tree import Text, text_at
from site_builder.notebook.vocabulary import Vocabulary
from site_builder.quantity import NotationError, Word, parse_value

_LEADS = ("aim", "about", "min", "max", "over", "under", "perhaps")
_LED = re.compile(r"([^\W\d_]{3,7}) (-?\d.*)")


def lead_near(analysis: Analysis) -> Iterator[Found]:
    nouns = frozenset(word.lower() for word in analysis.notebook.words)
    for leaf, place, _ in analysis.index.values:
        led = _LED.fullmatch(leaf.text) if isinstance(leaf.value.what, Word) else None
        lead = slip_of(led[1], _LEADS) if led is not None else ""
        if led is not None and lead and _reads(f"{lead} {led[2]}", nouns):
            yield Found(
                leaf.at, f"`{leaf}` is read as a word, not as a figure: `{led[1]}` is a slip away from `{lead}`.",
                f"Write `{lead} {led[2]}`.", place.owner_id,
            )


def _reads(text: str, nouns: frozenset[str]) -> bool:
    try:
        return not isinstance(parse_value(text, nouns).what, Word)
    except NotationError:
        return False


LEAD_NEAR = Rule(
    "lead-near", Level.WARNING, "A figure whose first word is a slip away from `min`, `max` or `about`.",
    "With the slip in it the whole is a word, and nothing is measured against a word.",
    """\
=== procedures/foot/fill-foot.yml
procedure: fill-foot
title: Fill the pits
steps:
✓   - {do: Let it harden., until: {clock: about 30 min}, settings: {grit: P 80}}
✗   - {do: Let it harden., until: {clock: ▸abuot 30 min}}
""", lead_near,
)


_LOOKED_FOR = frozenset(known.name for names in TOPICS.values() for known in names) | {
    "range", "resolution", "thickness", "belt width", "belt length", "sheet thickness", "annealing temperature",
}
_NAMED = ("properties", "settings", "limits", "conditions", "sizes")
_OWN = frozenset(("weight", "heights", "left", "massive", "shade", "grip", "nose", "ranger", "metals", "forces"))
"""Words of their own, a letter off a known name."""


def name_near(analysis: Analysis) -> Iterator[Found]:
    counts = Counter(all_names(analysis))
    for name, place in _names(analysis):
        if str(name) in _LOOKED_FOR or counts[str(name)] > 2:
            continue
        near = name_meant(str(name))
        if near:
            yield Found(
                name.at, f"`{name}` is a slip away from `{near}`, and nothing is told from it as it stands.",
                f"Did you mean `{near}`? If it is a name of your own, choose one that is less like it.", place.owner_id,
            )
    yield from _states(analysis, frozenset(counts))
    yield from _moments(analysis)


def name_meant(name: str) -> str:
    """The name that figures look for of which this one is a slip; empty where it is a word of its own."""
    bare = plain(name).replace("-", "")
    if name in _OWN:
        return ""
    for known in sorted(_LOOKED_FOR):
        wanted = plain(known).replace("-", "")
        if bare == wanted or _slip(bare, wanted) or _shortened(plain(name), plain(known)):
            return known
    return ""


def _shortened(name: str, known: str) -> bool:
    """`casting temp` for `casting temperature`: the same words, one of them cut short."""
    words, wanted = name.split("-"), known.split("-")
    return len(words) == len(wanted) > 1 and all(
        one == other or (len(one) > 3 and other.startswith(one)) for one, other in zip(words, wanted, strict=True)
    )


def _slip(word: str, known: str) -> bool:
    """One letter swapped, dropped, doubled or added; in a long word also one changed, or two slips."""
    if word[:1] != known[:1] or abs(len(word) - len(known)) > 2:
        return False
    count = slips(word, known)
    if count == 1:
        return len(known) > 5 or (len(known) > 3 and (len(word) != len(known) or sorted(word) == sorted(known)))
    return count == 2 and len(known) > 9


def _names(analysis: Analysis) -> Iterator[tuple[Text, Place]]:
    for kind in (Limit, Window):
        for limit, place in analysis.index.of(kind):
            if place.name is not None and place.key in _NAMED:
                yield place.name, place
            for name in limit.given:
                yield name, place


def _states(analysis: Analysis, names: frozenset[str]) -> Iterator[Found]:
    """Names of a state that an end waits for, near to that of a value and no value themselves."""
    words = Vocabulary(sorted(names))
    for end, place in analysis.index.of(End):
        for name in end.state:
            if str(name) in names or analysis.references.values(str(name), place):
                continue
            near = next((one for one in sorted(words.like(name)) if _slip(plain(one), plain(name))), "")
            if near:
                yield Found(
                    name.at, f"Nothing that is measured is called `{name}`.", f"Did you mean `{near}`?", place.owner_id,
                )


def _moments(analysis: Analysis) -> Iterator[Found]:
    """Moments of a window, near to the id of a step or procedure and none themselves."""
    for leaf, place, key in analysis.index.leaves:
        if not isinstance(place.entry, Window) or key not in ("after", "before"):
            continue
        begun = re.match(r"(?:start|end) of ", leaf.text)
        lead = begun[0] if begun else ""
        name = str(leaf.text)[len(lead):]
        own = place.procedure
        if " " in name or step_of(own, name) is not None or analysis.references.find(name, PROCEDURE) is not None:
            continue
        here = analysis.once(("words of steps", id(own)), partial(words_of_steps, own))
        there = analysis.once("words of procedures", lambda: Vocabulary(analysis.notebook.procedures))
        near = next((one for one in (*here.like(name), *there.like(name)) if _slip(name, one)), "")
        if near:
            at = text_at(name, leaf.text.at_letter(len(lead))).at
            yield Found(
                at, f"`{name}` is no step and no procedure, so the window is counted from an event nobody knows.",
                f"Did you mean `{near}`?", place.owner_id,
            )


NAME_NEAR = Rule(
    "name-near", Level.WARNING, "A name that is a slip away from one that is looked for.",
    "A value under a misspelt name is read by nobody: the check that leans on it falls silent, and nothing shows "
    "that it did.",
    """\
=== tools/gauges/caliper.yml
gauge: caliper
title: Caliper
✓ properties: {resolution: 0.02 mm, weight: 150 g}
✗ properties: {▸resolutoin: 0.02 mm}
✗ === tools/tooling/mop.yml
✗ tooling: mop
✗ title: Mop
✗ properties: {▸wheelsize: 250 mm}
""", name_near,
)


# By what two of a list are one and the same. Steps may be done twice, and are not here.
_SAME: Mapping[type[Entry], Callable[[Any], tuple[object, ...]]] = {
    Hazard: lambda one: (one.hazard,), Never: lambda one: (one.do,), Point: lambda one: (one.point,),
    Picture: lambda one: (one.file,), Show: lambda one: (one.show,), By: lambda one: (one.name,),
    Trouble: lambda one: (one.sign, one.cause, one.do), Check: lambda one: (one.good, one.where, one.do, one.with_),
    small.ToolUse: lambda one: (one.tool,), small.MaterialUse: lambda one: (one.material, str(one.amount)),
    small.Need: lambda one: (one.skill,), small.Revision: lambda one: (one.what, str(one.date)),
    small.Paper: lambda one: (one.paper, str(one.date)), small.After: lambda one: (str(one.done),),
}


def told_twice(analysis: Analysis) -> Iterator[Found]:
    for places in analysis.index.places.values():
        for place in places:
            if not isinstance(place.owner, Record):
                for value in place.entry.fields().values():
                    if type(value) is tuple and len(value) > 1:
                        yield from _list(value, place)


def _list(things: tuple[object, ...], place: Place) -> Iterator[Found]:
    seen: set[object] = set()
    for thing in things:
        same = _same(thing)
        if same is None:
            return
        if same in seen and (isinstance(thing, (Entry, Text))):
            yield Found(
                thing.at, f"{_named(thing)} stands in this list already.",
                "Take one of the two away; if another was meant, name it.", place.owner_id,
            )
        seen.add(same)


def _same(thing: object) -> object:
    """By what it is known again; None for what may well stand twice."""
    if isinstance(thing, Text):
        return str(thing)
    known = _SAME.get(type(thing)) if isinstance(thing, Entry) else None
    if known is None or not isinstance(thing, Entry):
        return None
    choices = tuple(sorted((str(k), *map(str, v)) for choice in thing.for_ for k, v in choice.items()))
    return known(thing), choices


def _named(thing: Entry | Text) -> str:
    if isinstance(thing, Text):
        return f"`{thing}`" if len(thing) < 30 else f"“{thing}”"
    name = str(next((one for one in _SAME[type(thing)](thing) if one), ""))
    return f"“{name}”"


TOLD_TWICE = Rule(
    "told-twice", Level.WARNING, "The same thing twice in one list.",
    "It was copied and never changed: what should stand in its place is missing.",
    """\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
✓ points: [Do not press., {point: Turn it., for: {pattern: harbour}}, {point: Turn it., for: {pattern: deck}}]
✗ tools: [belt-grinder, ▸belt-grinder]
✗ points: [Do not press., ▸Do not press.]
steps:
  - do: Sweep it along the belt.
✓   - do: Turn it.
✓   - do: Sweep it along the belt.
✗     hazards: [{hazard: grabbing foot, word: warning}, {hazard: hot foot, word: caution}, ▸{hazard: grabbing foot}]
""", told_twice,
)
