from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import Any

from site_builder.analysis.analysis import Analysis
from site_builder.checks.rule import Rule
from site_builder.notebook.finding import Found, Level
from site_builder.notebook.index import Place
from site_builder.notebook.model import small
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.harm import Hazard, Never, Point
from site_builder.notebook.model.judging import Check, Trouble
from site_builder.notebook.model.limit import By
from site_builder.notebook.model.people import Show
from site_builder.notebook.model.picture import Picture
from site_builder.notebook.model.records import Record
from site_builder.notebook.tree import Text

# By what two of a list are one and the same. Steps may be done twice, and are not here.
_SAME: Mapping[type[Entry], Callable[[Any], tuple[object, ...]]] = {
    Hazard: lambda one: (one.hazard,), Never: lambda one: (one.do,), Point: lambda one: (one.point,),
    Picture: lambda one: (one.file,), Show: lambda one: (one.show,), By: lambda one: (one.name,),
    Trouble: lambda one: (one.sign, one.cause, one.do), Check: lambda one: (one.good, one.where, one.do, one.with_),
    small.ToolUse: lambda one: (one.tool,), small.MaterialUse: lambda one: (one.material, str(one.amount)),
    small.Need: lambda one: (one.skill,), small.Revision: lambda one: (one.what, str(one.date)),
    small.Paper: lambda one: (one.paper, str(one.date)), small.After: lambda one: (str(one.done),),
}


def check(analysis: Analysis) -> Iterator[Found]:
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


RULE = Rule(
    code="told-twice",
    level=Level.WARNING,
    summary="The same thing twice in one list.",
    reason="It was copied and never changed: what should stand in its place is missing.",
    passes="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
points: [Do not press., {point: Turn it., for: {pattern: harbour}}, {point: Turn it., for: {pattern: deck}}]
steps:
  - do: Sweep it along the belt.
  - do: Turn it.
  - do: Sweep it along the belt.
""",
    fails="""\
=== procedures/foot/grind-foot.yml
procedure: grind-foot
title: Grind the foot flat
tools: [belt-grinder, ▸belt-grinder]
points: [Do not press., ▸Do not press.]
steps:
  - do: Sweep it along the belt.
    hazards: [{hazard: grabbing foot, word: warning}, {hazard: hot foot, word: caution}, ▸{hazard: grabbing foot}]
""",
    check=check,
)
