"""What is worn over the ears for a work, and how many decibels of it to count on."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from site_builder.figures.figure import Input
from site_builder.figures.figure_inputs import FigureInputs
from site_builder.figures.given import once, property_of
from site_builder.formulas.interval import Interval
from site_builder.notebook.index import Place
from site_builder.notebook.model.things import Protection, Thing
from site_builder.safety.hearing import Kind, halved_counted, niosh_counted

RATINGS = ("NRR", "SNR", "attenuation")
"""Properties of a protector that tell how much it takes off."""
_WORDS = ("ear", "hearing", "muff", "plug")
_SOURCE = "OSHA Technical Manual, Noise, half of what is promised; NIOSH 98-126, by kind of protector"


class Muffled(NamedTuple):
    """A hearing protector that is named for a work. ``counted`` are the decibels to count on, None where untold."""

    id: str
    counted: Interval | None
    how: str
    source: str
    inputs: tuple[Input, ...]


def worn_on_ears(known: FigureInputs, procedure: str) -> Muffled | None:
    """The hearing protector named for a work that may be counted with most; None where none is named.

    Raises ``Impossible`` for a rating that is none.
    """
    counted = _counted(known)
    found = []
    for id_ in _named(known).get(procedure, ()):
        if id_ not in counted:
            counted[id_] = _muffled(known, known.notebook.protection[id_])
        found.append(counted[id_])
    return max(found, key=lambda one: one.counted.high if one.counted is not None else -1.0, default=None)


@once
def _counted(_known: FigureInputs) -> dict[str, Muffled]:
    """Protectors that were looked up already."""
    return {}


@once
def _named(known: FigureInputs) -> Mapping[str, tuple[str, ...]]:
    """Of each procedure the hearing protectors of its hazards, its tools, its materials and the work it uses."""
    found: dict[str, dict[str, None]] = defaultdict(dict)
    for id_, tool in known.notebook.protection.items():
        if not _is_for_ears(known, tool):
            continue
        for link in known.references.used_in("tool", id_):
            if link.key == "wear":
                for procedure in _works_of(known, link.place):
                    found[procedure][id_] = None
    return {procedure: tuple(ids) for procedure, ids in found.items()}


def _works_of(known: FigureInputs, place: Place) -> Iterator[str]:
    """The procedures that a hazard or a thing goes along to."""
    todo: list[str] = []
    if place.procedure is not None:
        todo.append(place.owner_id)
    elif isinstance(place.owner, Thing):
        for one in (place.owner_id, *map(str, place.owner.members)):
            kind = "material" if one in known.notebook.materials else "tool"
            todo += [link.place.owner_id for link in known.references.used_in(kind, one)
                     if link.key in ("tool", "material", "with_") and link.place.procedure is not None]
    seen: set[str] = set()
    while todo:
        procedure = todo.pop()
        if procedure not in seen:
            seen.add(procedure)
            yield procedure
            todo += [link.place.owner_id for link in known.references.used_in("procedure", procedure)
                     if link.key == "use" and link.place.procedure is not None]


def _is_for_ears(known: FigureInputs, tool: Protection) -> bool:
    words = f"{str(tool.id).replace('-', ' ')} {tool.title.lower()}".split()
    if any(word.startswith(known_word) for word in words for known_word in _WORDS):
        return True
    rating = (property_of(known, str(tool.id), name) for name in RATINGS)
    return any(given is not None and given.unit.kind == "sound level" for given in rating)


def _muffled(known: FigureInputs, tool: Protection) -> Muffled:
    id_ = str(tool.id)
    for name in RATINGS:
        given = property_of(known, id_, name)
        if given is None or given.unit.kind != "sound level":
            continue
        low, high = given.span.low, given.span.high
        if name == "NRR":
            kind = _kind(f"{tool.title} {tool.maker or ''}".lower())
            counted = Interval(*(min(halved_counted(end), niosh_counted(end, kind)) for end in (low, high)))
            how = "counted with the lower of half of it after 7 dB are taken off, and of what NIOSH leaves of its kind"
        else:
            # the noise is told in dB(A); that a rating counts in full against it, only dB(C) beside it could tell
            counted = Interval(halved_counted(low), halved_counted(high))
            how = "counted with half of it after 7 dB are taken off"
        return Muffled(id_, counted, how, _SOURCE, (given.input,))
    return Muffled(id_, None, "", "", ())


def _kind(words: str) -> Kind:
    if "plug" in words:
        return "formable plugs" if "foam" in words or "formable" in words else "other plugs"
    return "muffs"
