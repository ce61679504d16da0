"""Whether a skill is still in the hands: a sign-off goes stale so long after the last practice."""

from __future__ import annotations

from bisect import bisect_right, insort
from collections import defaultdict
from collections.abc import Mapping
from datetime import date

from site_builder.notebook.gather import skills_of
from site_builder.notebook.notebook import Notebook
from site_builder.notebook.spans import day_after, longest_span
from site_builder.skills.ages import told_at
from site_builder.skills.ledger import rank

_BY_ONESELF = rank("within call")
"""Below this the teacher stands at the bench, and nothing can go stale."""


def skills_at_work(notebook: Notebook) -> Mapping[str, frozenset[str]]:
    """Of each procedure, the skills that are used in it: those it names, and those that cover it."""
    found: dict[str, set[str]] = defaultdict(set)
    for id_, procedure in notebook.procedures.items():
        found[id_].update(map(str, skills_of(procedure)))
    for id_, skill in notebook.skills.items():
        for one in skill.covers:
            found[str(one)].add(id_)
    return {id_: frozenset(skills) for id_, skills in found.items()}


class Freshness:
    """The days on which everybody practised each skill. Whoever stands by as teacher practises too."""

    def __init__(self, notebook: Notebook) -> None:
        self.notebook = notebook
        at_work = skills_at_work(notebook)
        self._days: dict[tuple[str, str], list[date]] = defaultdict(list)
        self._begun: date | None = None
        """The first day of the book of practice: of the time before it nobody can say who practised."""
        gone = {int(earlier) for entry in notebook.practice for earlier in (entry.corrects, entry.withdraws) if earlier}
        for entry in notebook.practice:
            if entry.date is None:
                continue
            first, last = entry.date.value.first, entry.date.value.last
            self._begun = first if self._begun is None else min(self._begun, first)
            if entry.procedure is None or entry.number in gone:
                continue
            for person in {str(one) for one in (entry.who, entry.teacher) if one is not None}:
                for skill in at_work.get(str(entry.procedure), ()):
                    insort(self._days[person, skill], last)

    def last_practice(self, person: str, skill: str, day: date) -> date | None:
        """The last day up to this one on which somebody practised a skill, by the book."""
        days = self._days.get((person, skill), [])
        before = bisect_right(days, day)
        return days[before - 1] if before else None

    def stale_since(self, person: str, skill: str, level: str, signed: date | None, day: date) -> date | None:
        """The last day on which a sign-off of ``signed`` was fresh, where that day is past on ``day``."""
        end = self.fresh_until(person, skill, level, signed, day)
        return end if end is not None and end < day else None

    def fresh_until(self, person: str, skill: str, level: str, signed: date | None, day: date) -> date | None:
        """The last day on which a sign-off of ``signed`` is fresh by what was practised up to ``day``.

        None where it never goes stale, or nobody can tell.
        """
        known = self.notebook.skills.get(skill)
        if known is None or self._begun is None or signed is None or rank(level) < _BY_ONESELF:
            return None
        spans = [span for limit in told_at(known.refresh, level) if (span := longest_span(limit.value)) is not None]
        if not spans:
            return None
        since = max(signed, self._begun, self.last_practice(person, skill, day) or date.min)
        return day_after(since, min(spans))
