"""Who holds which skill how far, as the book of sign-offs says on a given day."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from site_builder.mastery.fresh import Freshness
from site_builder.mastery.ledger import LEVELS
from site_builder.mastery.standing import standing
from site_builder.notebook.gather import skills_of
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.records import SignOff
from site_builder.notebook.notebook import Notebook


@dataclass(frozen=True, slots=True)
class Held:
    """A level somebody holds, and the entry that gave it."""

    person: str
    skill: str
    level: str
    entry: SignOff
    stale_since: date | None = None
    """The last day on which it was fresh, where the time of ``refresh`` has passed without practice."""

    @property
    def rank(self) -> int:
        """1 watches … 5 teaches."""
        return LEVELS.index(self.level) + 1


class Holders:
    """The standing of every person in every skill on ``today``; later entries replace earlier ones."""

    def __init__(self, notebook: Notebook, today: date) -> None:
        self.notebook = notebook
        self.today = today
        self.fresh = Freshness(notebook)
        self.held: Mapping[tuple[str, str], Held] = _standing(notebook, today, self.fresh)
        self._by_skill: dict[str, list[Held]] = defaultdict(list)
        for held in self.held.values():
            self._by_skill[held.skill].append(held)
        self._able: dict[tuple[str, str], tuple[str, ...]] = {}

    def level(self, person: str, skill: str) -> Held | None:
        """What this person holds in this skill."""
        return self.held.get((person, skill))

    def of_skill(self, skill: str, *, living: bool = True) -> tuple[Held, ...]:
        """Everybody signed for a skill, the highest level first."""
        found = [h for h in self._by_skill.get(skill, ()) if not living or h.person in self.notebook.living]
        return tuple(sorted(found, key=lambda h: (-h.rank, h.person)))

    def of_person(self, person: str) -> tuple[Held, ...]:
        """All that a person holds, the highest level first."""
        found = [h for (p, _), h in self.held.items() if p == person]
        return tuple(sorted(found, key=lambda h: (-h.rank, h.skill)))

    def able(self, skill: str, level: str = "alone") -> tuple[str, ...]:
        """The living people who hold a skill at least so far."""
        found = self._able.get((skill, level))
        if found is None:
            least = LEVELS.index(level) + 1
            found = tuple(h.person for h in self.of_skill(skill) if h.rank >= least)
            self._able[skill, level] = found
        return found

    def able_to_do(self, procedure: Procedure, level: str = "alone") -> tuple[str, ...]:
        """The living people who hold every skill a procedure names, at least so far."""
        skills = skills_of(procedure)
        if not skills:
            return ()
        groups = [set(self.able(str(skill), level)) for skill in skills]
        return tuple(p for p in self.notebook.living if all(p in group for group in groups))


def _standing(notebook: Notebook, today: date, fresh: Freshness) -> dict[tuple[str, str], Held]:
    latest: dict[tuple[str, str], SignOff] = {}
    for entry in standing(notebook, today):
        if entry.learner is not None and entry.skill is not None and entry.level is not None:
            latest[str(entry.learner), str(entry.skill)] = entry
    held = {}
    for key, entry in latest.items():
        signed, level = entry.date.value.last if entry.date is not None else None, str(entry.level)
        held[key] = Held(*key, level, entry, fresh.stale_since(*key, level, signed, today))
    return held


__all__ = ["LEVELS", "Held", "Holders"]
