"""Least ages: what a skill asks for, itself and through the hazards, tools and materials of all its work."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import date
from fractions import Fraction
from functools import cached_property
from typing import NamedTuple

from site_builder.notebook.gather import ages_of
from site_builder.notebook.kinds import kind_of
from site_builder.notebook.model.entry import Entry
from site_builder.notebook.model.harm import Hazard
from site_builder.notebook.model.limit import Limit
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.people import Skill
from site_builder.notebook.model.small import MaterialUse, ToolUse
from site_builder.notebook.references import References
from site_builder.notebook.spans import day_after, least_span
from site_builder.notebook.tree import Text

_IN_USE = frozenset({"tool", "material", "with_"})
_LEVEL = Text("level")


class LeastAge(NamedTuple):
    """An age in seconds of the notation, as it was written, and the title of what asks for it."""

    seconds: Fraction
    written: str
    of: str

    def reached(self, born: date) -> date:
        """The day from which who was born on ``born`` is old enough."""
        return day_after(born, self.seconds)


class Ages:
    """The least age for each skill at each level; the use of tools and materials is looked up once."""

    def __init__(self, references: References) -> None:
        self.references = references
        self.notebook = references.notebook
        self._found: dict[tuple[str, str], LeastAge | None] = {}
        self._of_things: dict[tuple[str, str], tuple[LeastAge, ...]] = {}

    def of_skill(self, skill: str, level: str) -> LeastAge | None:
        """The highest least age that holding this skill at this level calls for; None where none is told."""
        key = (skill, level)
        if key not in self._found:
            known = self.notebook.skills.get(skill)
            asked: list[LeastAge] = []
            if known is not None:
                title = str(known.title)
                asked = [*_asked(known.age, level, title), *_of_hazards(known.hazards, level, title),
                         *self._by_work(known, level)]
            self._found[key] = max(asked, default=None)
        return self._found[key]

    def of_procedure(self, procedure: str, level: str) -> LeastAge | None:
        """The highest least age that doing this work calls for: by what it meets, and by the skill it takes."""
        known = self.notebook.procedures.get(procedure)
        asked = [*self._of_procedure(procedure, level)]
        if known is not None and isinstance(known.skill, Text):  # a table or a step's own may be another's work
            skill = self.notebook.skills.get(str(known.skill))
            asked += _asked(skill.age, level, str(skill.title)) if skill is not None else ()
        return max(asked, default=None)

    def _by_work(self, skill: Skill, level: str) -> Iterator[LeastAge]:
        """The age without which none of the work of this skill can be done."""
        work = procedures_of(self.references, skill)
        ages = [max(self._of_procedure(procedure, level), default=None) for procedure in work]
        told = [age for age in ages if age is not None]
        if told and len(told) == len(work):
            yield min(told)

    def _of_procedure(self, procedure: str, level: str) -> Iterator[LeastAge]:
        known_work = self.notebook.procedures.get(procedure)
        if known_work is not None:
            yield from _of_hazards(self._met.get(procedure, ()), level, str(known_work.title))
        for thing in self._in_use.get(procedure, ()):
            key = (thing, level)
            if key not in self._of_things:
                known = self.notebook.things[thing]
                title = str(known.title)
                self._of_things[key] = (*_asked(known.age, level, title), *_of_hazards(known.hazards, level, title))
            yield from self._of_things[key]

    @cached_property
    def _met(self) -> dict[str, list[Hazard]]:
        """Of each procedure, the hazards with an age that nobody gets round who does it: its own and its steps'."""
        found: dict[str, list[Hazard]] = defaultdict(list)
        for hazard, place in self.references.index.of(Hazard):
            spared = place.step is not None and bool(place.step.for_)
            if hazard.age and place.procedure is not None and not spared:
                found[place.owner_id].append(hazard)
        return found

    @cached_property
    def _in_use(self) -> dict[str, list[str]]:
        """Of each procedure, the tools and materials with an age that it cannot do without."""
        found: dict[str, list[str]] = defaultdict(list)
        for id_, thing in self.notebook.things.items():
            if not ages_of(thing):
                continue
            for one in (id_, *map(str, thing.members)):
                for link in self.references.used_in(kind_of(thing), one):
                    entry = link.place.entry
                    spared = isinstance(entry, ToolUse | MaterialUse) and bool(entry.or_)
                    needed = link.key in _IN_USE and not spared and not entry.for_
                    if needed and link.place.procedure is not None:
                        found[link.place.owner_id].append(id_)
        return found


def procedures_of(references: References, skill: Skill) -> tuple[str, ...]:
    """The procedures a skill covers, and those that name it as a whole, each once."""
    notebook = references.notebook
    covered = [str(one) for one in skill.covers if one in notebook.procedures]
    naming = [
        link.place.owner_id
        for link in references.used_in("skill", str(skill.skill))
        if link.key == "skill" and link.place.entry is link.place.procedure
    ]
    return tuple(dict.fromkeys((*covered, *naming)))


def told_at(limits: Iterable[Limit], level: str) -> Iterator[Written]:
    """The values of some limits that surely hold at this level, whatever else is chosen."""
    for limit in limits:
        for rows, cell in limit.cells():
            if rows and not ([by.name for by in limit.by] == ["level"] and rows[0] == level):
                continue
            if cell.written is not None and _holds(limit, level) and _holds(cell, level):
                yield cell.written


def _asked(limits: Iterable[Limit], level: str, of: str) -> Iterator[LeastAge]:
    for written in told_at(limits, level):
        seconds = least_span(written.value)
        if seconds is not None:
            yield LeastAge(seconds, str(written), of)


def _of_hazards(hazards: Iterable[Hazard], level: str, of: str) -> Iterator[LeastAge]:
    """The ages that what can hurt asks for: `Polishing spindle (torn from the hand)`."""
    for hazard in hazards:
        if _holds(hazard, level):
            yield from _asked(hazard.age, level, f"{of} ({hazard.hazard})")


def _holds(entry: Entry, level: str) -> bool:
    """Whether a limit or a hazard surely holds at this level, whatever else is chosen."""
    conditions = entry.for_
    return not conditions or any(set(one) == {"level"} and level in one[_LEVEL] for one in conditions)
