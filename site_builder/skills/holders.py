"""Who holds which skill how far, as the book of sign-offs says on a given day."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from site_builder.notebook.gather import skills_of
from site_builder.notebook.model.procedure import Procedure
from site_builder.notebook.model.records import SignOff
from site_builder.skills.law import Law
from site_builder.skills.ledger import LEVELS
from site_builder.skills.papers import Asked, run_out


@dataclass(frozen=True, slots=True)
class Held:
    """A level somebody holds, and the entry that gave it."""

    person: str
    skill: str
    level: str
    entry: SignOff
    stale_since: date | None = None
    """The last day on which it was fresh, where the time of ``refresh`` has passed without practice."""
    paper: Asked | None = None
    """The paper that the skill asks for and that has run out."""

    @property
    def rests_since(self) -> date | None:
        """The last day before it rested, for want of practice or of a paper; None where it holds."""
        ends = (self.stale_since, self.paper.last if self.paper is not None else None)
        return min((end for end in ends if end is not None), default=None)

    @property
    def rests(self) -> bool:
        """Whether it counts for nothing until it is practised again, or the paper renewed."""
        return self.rests_since is not None

    @property
    def rank(self) -> int:
        """1 watches … 5 teaches."""
        return LEVELS.index(self.level) + 1


class Holders:
    """The standing of every person in every skill on ``today``, as the law lets the book be read."""

    def __init__(self, law: Law, today: date) -> None:
        self.notebook = law.notebook
        self.law = law
        self.today = today
        self.ledger = law.ledger_on(today)
        self.fresh = law.fresh
        self.held: Mapping[tuple[str, str], Held] = {
            (person, skill): self._held(person, skill, entry) for person, skill, entry in self.ledger.holding
        }
        self._by_skill: dict[str, list[Held]] = defaultdict(list)
        self._by_person: dict[str, list[Held]] = defaultdict(list)
        for held in self.held.values():
            self._by_skill[held.skill].append(held)
            self._by_person[held.person].append(held)
        self._able: dict[tuple[str, str], tuple[str, ...]] = {}

    def _held(self, person: str, skill: str, entry: SignOff) -> Held:
        signed, level = entry.date.value.last if entry.date is not None else None, str(entry.level)
        return Held(person, skill, level, entry, self.fresh.stale_since(person, skill, level, signed, self.today),
                    run_out(self.notebook, person, skill, level, self.today))

    def level(self, person: str, skill: str) -> Held | None:
        """What this person holds in this skill."""
        return self.held.get((person, skill))

    def of_skill(self, skill: str, *, living: bool = True) -> tuple[Held, ...]:
        """Everybody signed for a skill, the highest level first."""
        found = [h for h in self._by_skill.get(skill, ()) if not living or h.person in self.notebook.living]
        return tuple(sorted(found, key=lambda h: (-h.rank, h.person)))

    def of_person(self, person: str) -> tuple[Held, ...]:
        """All that a person holds, the highest level first."""
        return tuple(sorted(self._by_person.get(person, ()), key=lambda h: (-h.rank, h.skill)))

    def able(self, skill: str, level: str = "alone") -> tuple[str, ...]:
        """The living people who hold a skill at least so far, and with whom it does not rest."""
        found = self._able.get((skill, level))
        if found is None:
            least = LEVELS.index(level) + 1
            found = tuple(h.person for h in self.of_skill(skill) if h.rank >= least and not h.rests)
            self._able[skill, level] = found
        return found

    def masters(self, skill: str) -> tuple[str, ...]:
        """The founders who are here, while nobody was ever signed to teach a skill: with them its chain begins."""
        if any(held.level == LEVELS[-1] for held in self.of_skill(skill, living=False)):
            return ()
        return tuple(person for person in self.notebook.living if self.law.founder(person))

    def signers(self, skill: str) -> tuple[str, ...]:
        """The living people whom the law lets sign for a skill: who teaches it, and the founders."""
        return tuple(person for person in self.notebook.living
                     if self.law.may_sign(person, skill, self.ledger, self.today))

    def teachers(self, skill: str) -> tuple[str, ...]:
        """The living people who may teach a skill: who does it alone, and may sign for it."""
        able = {*self.able(skill), *self.masters(skill)}
        return tuple(person for person in self.signers(skill) if person in able)

    def resting_with(self, procedure: Procedure) -> tuple[str, ...]:
        """The living people who were signed to do a procedure alone, and with whom a skill that it names rests."""
        held = [[self.level(person, str(skill)) for skill in skills_of(procedure)] for person in self.notebook.living]
        alone = LEVELS.index("alone") + 1
        return tuple(
            person for person, ones in zip(self.notebook.living, held, strict=True)
            if ones and all(one is not None and one.rank >= alone for one in ones)
            and any(one is not None and one.rests for one in ones)
        )

    def able_to_do(self, procedure: Procedure, level: str = "alone") -> tuple[str, ...]:
        """The living people who hold every skill a procedure names, at least so far; what rests does not count."""
        skills = skills_of(procedure)
        if not skills:
            return ()
        groups = [set(self.able(str(skill), level)) for skill in skills]
        return tuple(p for p in self.notebook.living if all(p in group for group in groups))


__all__ = ["LEVELS", "Held", "Holders"]
