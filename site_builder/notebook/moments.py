"""Where entries were told: ``told: NAME#t=754.2,759`` resolved; and how far a telling is taken up."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from site_builder.notebook.index import Index, Place
from site_builder.notebook.model.telling import Telling
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.tree import Text
from site_builder.tellings.cue import Cue
from site_builder.tellings.timing import Stretch, read_fragment

Problem = Literal["", "none", "unreadable", "outside"]
State = Literal["taken up", "laid aside", "open"]


@dataclass(frozen=True, slots=True)
class Moment:
    """What ``told`` says: the telling, from when to when, and the sentences that were said then."""

    telling: str
    problem: Problem = ""
    stretch: Stretch | None = None
    """None where the transcript has no times, or the telling is told as a whole."""
    cues: tuple[Cue, ...] = ()


@dataclass(frozen=True, slots=True, eq=False)
class ToldEntry:
    """An entry that says where it was told."""

    text: Text
    place: Place
    moment: Moment


@dataclass(frozen=True, slots=True)
class Coverage:
    """How far one telling is taken up: of each sentence its state, and what took it up."""

    telling: Telling
    cues: tuple[Cue, ...]
    states: Mapping[str, State]
    by: Mapping[str, tuple[Place | Text, ...]] = field(default_factory=dict)

    def of(self, state: State) -> tuple[Cue, ...]:
        """The sentences in this state, in order."""
        return tuple(cue for cue in self.cues if self.states[cue.id] == state)


def moment(notebook: Notebook, text: str) -> Moment:
    """Resolve ``NAME``, ``NAME#t=754.2,759`` or ``NAME#c004,c005`` (sentences by name)."""
    name, mark, fragment = text.partition("#")
    name = name.strip()
    if name not in notebook.tellings:
        return Moment(name, "none")
    transcript = notebook.transcripts.get(name)
    if not mark:
        return Moment(name)
    if fragment.strip().startswith("t="):
        stretch = read_fragment(fragment)
        if stretch is None:
            return Moment(name, "unreadable")
        if transcript is None or not transcript.timed:
            return Moment(name, "" if transcript is None else "outside", stretch)
        end = transcript.end or Fraction(0)
        if stretch.start >= end or (stretch.end is not None and stretch.end > end + 1):
            return Moment(name, "outside", stretch)
        return Moment(name, "", stretch, transcript.between(stretch.start, end if stretch.end is None else stretch.end))
    wanted = [one.strip() for one in fragment.split(",")]
    if transcript is None:
        return Moment(name)
    cues = tuple(cue for cue in transcript.cues if cue.id in wanted)
    if not all(wanted):
        return Moment(name, "unreadable")
    if len(cues) < len(set(wanted)):
        return Moment(name, "outside", cues=cues)
    starts = [cue.start for cue in cues if cue.start is not None]
    ends = [cue.end for cue in cues if cue.end is not None]
    return Moment(name, "", Stretch(min(starts), max(ends)) if starts and ends else None, cues)


def told_entries(index: Index) -> tuple[ToldEntry, ...]:
    """Every entry that says where it was told, in the order of the notebook."""
    spots = (spot for spot in (*index.plain, *index.texts) if spot.key == "told")
    return tuple(ToldEntry(spot.text, spot.place, moment(index.notebook, str(spot.text))) for spot in spots)


def coverage(notebook: Notebook, told: Iterable[ToldEntry]) -> Mapping[str, Coverage]:
    """Of each telling with a transcript, how far it is taken up. What an entry takes up is not laid aside."""
    by: dict[str, dict[str, list[Place | Text]]] = {id_: {} for id_ in notebook.tellings}
    for one in told:
        if not one.moment.problem:
            for cue in one.moment.cues:
                by[one.moment.telling].setdefault(cue.id, []).append(one.place)
    found = {}
    for id_, telling in notebook.tellings.items():
        transcript = notebook.transcripts.get(id_)
        if transcript is None:
            continue
        for cue_id, places in telling.taken_up.items():
            by[id_].setdefault(str(cue_id), []).extend(places)
        aside = set(map(str, telling.laid_aside))
        states: dict[str, State] = {
            cue.id: "taken up" if cue.id in by[id_] else "laid aside" if cue.id in aside else "open"
            for cue in transcript.cues
        }
        found[id_] = Coverage(telling, transcript.cues, states, {key: tuple(value) for key, value in by[id_].items()})
    return found
