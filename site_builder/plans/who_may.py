"""Who may do a work and from when: skills and levels by the book, ages, papers that run out, lessons decided."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta

from site_builder.figures.figure_inputs import FigureInputs
from site_builder.notebook.gather import skills_of
from site_builder.notebook.model.procedure import Procedure
from site_builder.plans.calendar import Days
from site_builder.season.problem import Able
from site_builder.skills.ages import Ages
from site_builder.skills.papers import run_out

_NEVER = 1_000_001
_GROWN = 18
"""Years: who is younger works only while somebody grown is in. Common practice; the law where you work goes first."""


class WhoMay:
    """Looks up hands for the works of a season."""

    def __init__(self, known: FigureInputs, days: Days) -> None:
        self.known, self.days, self.ages = known, days, Ages(known.references)
        self.people = tuple(known.notebook.living)

    def young(self) -> tuple[str, ...]:
        """Who is under age on the first day; without a date of birth nobody is."""
        first, found = self.days.first, []
        for id_, person in self.known.notebook.living.items():
            born = person.born.value.first if person.born is not None else None
            if born is not None and (first.year - born.year - ((first.month, first.day) < (born.month, born.day))
                                     < _GROWN):
                found.append(id_)
        return tuple(found)

    def able(self, own: Procedure) -> tuple[Able, ...]:
        """Who may do it alone, or while somebody who teaches it is in. Where no skill is named, anybody grown."""
        skills = skills_of(own)
        if not skills:
            young = self.young()
            return tuple(Able(one) for one in self.people if one not in young and self._first(own, one, "alone") == 0)
        holders = self.known.holders
        unsigned = self.unsigned(own)
        alone = (*holders.able_to_do(own, "alone"), *unsigned)
        teachers = (*holders.able_to_do(own, "teaches"), *unsigned)
        found = [Able(one, self._first(own, one, "alone")) for one in alone]
        opened = {one: max(self._first(own, one, "alone"), self.days.number(day), 0)
                  for one, day in self.opened(own).items() if one not in alone}
        found += [Able(one, self._first(own, one, "within call"), opened.get(one, _NEVER) - 1, teachers) for one in
                  holders.able_to_do(own, "within call") if one not in alone and teachers]
        found += [Able(one, first) for one, first in opened.items()]
        return tuple(one for one in found if one.first < self.days.count and one.first <= one.last)

    def unsigned(self, own: Procedure) -> tuple[str, ...]:
        """Founders who are taken to do it alone although nobody signed that: where the chain of a skill that it names
        has not begun, it begins with them."""
        holders, skills = self.known.holders, [str(one) for one in skills_of(own)]
        signed = holders.able_to_do(own, "alone")
        return tuple(one for one in self.people if one not in signed and skills and all(
            one in holders.able(skill) or one in holders.masters(skill) for skill in skills))

    def opened(self, own: Procedure) -> Mapping[str, date]:
        """Who will do it alone by lessons that are decided, and from which day on: where all skills are held then."""
        shop = self.known.notebook.shop
        decided = shop.planning.lessons if shop is not None and shop.planning is not None else ()
        found: dict[str, date] = {}
        for person in self.people:
            taught = {str(one.skill): one.date.value.last for one in decided
                      if one.who == person and one.date is not None}
            wanted = [str(skill) for skill in skills_of(own)]
            held = {skill for skill in wanted if person in self.known.holders.able(skill)}
            days = [taught.get(skill) for skill in wanted if skill not in held]
            if days and None not in days:
                found[person] = max(day for day in days if day is not None)
        return found

    def helpers(self, own: Procedure) -> tuple[str, ...]:
        """Who may be the second pair of hands: old enough for the work; more is not asked of them."""
        return tuple(one for one in self.people if self._first(own, one, "beside") == 0)

    def _first(self, own: Procedure, person: str, level: str) -> int:
        """The first day on which somebody is old enough; beyond the season where they never are in it."""
        age = self.ages.of_procedure(str(own.procedure), level)
        born = self.known.notebook.people[person].born
        if age is None or born is None:
            return 0
        return max(self.days.number(age.reached(born.value.last)), 0)

    def renewed(self, own: Procedure, person: str) -> date | None:
        """The last day on which a paper that the work asks for is good, where it runs out within the season."""
        low, high = 0, self.days.count - 1
        if not self._lapsed(own, person, high):
            return None
        while low < high:
            middle = (low + high) // 2
            if self._lapsed(own, person, middle):
                high = middle
            else:
                low = middle + 1
        return self.days.on(high - 1)

    def _lapsed(self, own: Procedure, person: str, day: int) -> bool:
        when = self.days.first + timedelta(days=day)
        held = [self.known.holders.level(person, str(skill)) for skill in skills_of(own)]
        return any(one is not None and run_out(self.known.notebook, person, one.skill, one.level, when) is not None
                   for one in held)


