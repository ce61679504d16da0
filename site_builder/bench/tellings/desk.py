"""A telling as it lies on the desk: its sentences with their states, the work that it goes into, how far it is."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from site_builder.amend import Kept, Plain, entry_at, history, tree_in
from site_builder.bench.names import Names
from site_builder.bench.saying import said
from site_builder.bench.tellings.becomes import BECOMES
from site_builder.bench.tellings.taking_up import Telling, Work
from site_builder.bench.visit import Visit
from site_builder.notebook.consent import unasked
from site_builder.notebook.index import Place
from site_builder.notebook.moments import Coverage, State, moment
from site_builder.notebook.telling_files import telling_file
from site_builder.tellings.cue import Cue
from site_builder.tellings.kinds import Understood
from site_builder.tellings.timing import clock_text, seconds_text
from site_builder.views.understood import understood

_LOOKED_BACK = 200
"""So many acts of writing are looked through for what took a sentence up."""


@dataclass(frozen=True, slots=True)
class Sentence:
    """One cue on the desk."""

    cue: Cue
    state: State
    at: str
    seconds: str
    where: str
    """What it went into."""
    sounds: str
    """What an open one most likely is."""
    kept: str
    """The act of writing that took it up, so that it can be taken back; empty where a hand wrote it in the file."""


@dataclass(frozen=True, slots=True)
class GrownStep:
    """A step of the work as it stands now."""

    number: int
    do: str
    lines: tuple[tuple[str, str], ...]
    told: str


class OnTheDesk:
    """One telling, and what can be said of it."""

    def __init__(self, visit: Visit, name: str) -> None:
        self._visit = visit
        self.book = visit.reading.survey.notebook
        self.telling = self.book.tellings[name]
        self.name = name
        self.coverage: Coverage = visit.reading.survey.coverage[name]
        self.file = str(self.telling.at.path)
        self.tree: Plain = tree_in(visit.here.root, self.file) or {}

    @property
    def title(self) -> str:
        return str(self.telling.title)

    @property
    def teller(self) -> str:
        return str(self.telling.teller or "")

    @property
    def voice(self) -> Path | None:
        """The recording, to be heard at the desk."""
        recording = self.telling.recording
        return None if recording is None else telling_file(self.book.root, self.telling, str(recording))

    @property
    def to_ask(self) -> tuple[str, ...]:
        """Who has not been asked yet whether the voice may be played."""
        return unasked(self.book, self.telling) if self.voice is not None else ()

    @cached_property
    def understood(self) -> dict[str, Understood]:
        """What each sentence suggests, by its name."""
        return {one.cue.id: one for one in understood(self._visit.reading.survey, self.coverage.cues)}

    def counts(self) -> dict[State, int]:
        return {state: len(self.coverage.of(state)) for state in ("taken up", "laid aside", "open")}

    def works(self) -> list[tuple[str, str]]:
        """The procedures, that which most of this telling went into first."""
        went = Counter(place.owner_id for places in self.coverage.by.values() for place in places
                       if isinstance(place, Place))
        found = [(id_, str(one.title)) for id_, one in self.book.procedures.items()]
        return sorted(found, key=lambda one: -went[one[0]])

    def work(self, id_: str) -> Work | None:
        """The procedure that grows."""
        known = self.book.procedures.get(id_)
        if known is None:
            return None
        file = str(known.at.path)
        tree = tree_in(self._visit.here.root, file)
        return Work(id_, str(known.title), file, tree) if isinstance(tree, dict) else None

    def own(self, cues: Sequence[Cue]) -> Telling:
        return Telling(self.name, self.file, self.tree, tuple(cue.id for cue in cues))

    def sentences(self) -> list[Sentence]:
        """All of them, in order."""
        acts = self._acts()
        return [
            Sentence(cue, self.coverage.states[cue.id], "" if cue.start is None else clock_text(cue.start),
                     "" if cue.start is None else seconds_text(cue.start), self._where(cue.id),
                     self._sounds(cue.id), acts.get(cue.id, ""))
            for cue in self.coverage.cues
        ]

    def _sounds(self, cue: str) -> str:
        if self.coverage.states[cue] != "open":
            return ""
        kind = self.understood[cue].kinds[0]
        return BECOMES[kind].label if kind in BECOMES else "talk"

    def _where(self, cue: str) -> str:
        places = self.coverage.by.get(cue, ())
        told = []
        for place in places:
            if not isinstance(place, Place):
                told.append(str(place))
                continue
            owner = self.book.procedures.get(place.owner_id)
            number = owner.numbers.get(id(place.step), "") if owner is not None and place.step is not None else ""
            told.append(f"{self._visit.names.thing(place.owner_id)}{f', step {number}' if number else ''}")
        return "; ".join(dict.fromkeys(told))

    def _acts(self) -> dict[str, str]:
        """By sentence the latest act of writing that took it up or laid it aside, where it was not taken back."""
        found: dict[str, str] = {}
        gone: set[str] = set()
        for number, one in enumerate(history(self.book.root)):
            if number >= _LOOKED_BACK:
                break
            if one.takes_back is not None:
                gone.add(one.takes_back)
            elif one.name not in gone:
                for cue in self._touched(one):
                    found.setdefault(cue, one.name)
        return found

    def _touched(self, one: Kept) -> set[str]:
        touched: set[str] = set()
        for change in one.changes:
            if change.file == self.file and change.path[:1] == ("taken up",):
                new = change.shall if isinstance(change.shall, dict) else {}
                old = change.was if isinstance(change.was, dict) else {}
                touched |= {cue for cue in new if new[cue] != old.get(cue)}
            before = set(_moments(change.was))
            for text in _moments(change.shall):
                if text not in before and text.partition("#")[0] == self.name:
                    touched |= {cue.id for cue in moment(self.book, text).cues}
        return touched

    def grown(self, work: Work) -> list[GrownStep]:
        """The work as it stands at this moment, with the moments of this telling."""
        names = Names(self._visit.reading.survey)
        found = []
        for number, step in enumerate(work.steps):
            model = entry_at(work.tree, ("steps", number)) or entry_at(work.tree, ("steps",))
            if model is None:
                continue
            own = said(names, model, step)
            here = [clock for text in _moments(step) if text.startswith(f"{self.name}#")
                    if (clock := self._clock(text))]
            found.append(GrownStep(number + 1, own.main, own.more, ", ".join(dict.fromkeys(here))))
        return found

    def _clock(self, text: str) -> str:
        stretch = moment(self.book, text).stretch
        return "" if stretch is None else clock_text(stretch.start)


def _moments(tree: Plain | None) -> list[str]:
    """Every text under ``told`` in a piece of a tree, in order."""
    if isinstance(tree, list):
        return [text for one in tree for text in _moments(one)]
    if not isinstance(tree, dict):
        return []
    found: list[str] = []
    for key, value in tree.items():
        if key == "told":
            found += [str(one) for one in (value if isinstance(value, list) else [value])]
        else:
            found += _moments(value)
    return found
