"""What stands in the books for a learner and a skill, counted: the evidence that a sign-off rests on."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from functools import cached_property

from site_builder.notebook.index import Place
from site_builder.notebook.model.parsed_values import Written
from site_builder.notebook.model.people import Proof
from site_builder.notebook.model.records import Measurement, Practice, Record, SignOff, Trial
from site_builder.notebook.names import NamedValue
from site_builder.notebook.references import References
from site_builder.skills.fresh import skills_at_work
from site_builder.skills.gauge_rounds import studies
from site_builder.skills.grading import Grading
from site_builder.skills.readings import Judgement, Outcome, ReadingJudge, figures_of, limit_of

CITED = re.compile(r"(sign-off|practice|trial|measurement|incident) (\d{1,9})\Z")
_Spot = tuple[int, str, str]


@dataclass(frozen=True, slots=True)
class Count:
    """Pieces made, those good at the first go, and the entries that say so."""

    made: Fraction
    good: Fraction
    entries: tuple[Practice, ...]


class Evidence:
    """The books of a notebook by number and learner; entries that were answered by later ones are left out."""

    def __init__(self, judge: ReadingJudge) -> None:
        self.judge = judge
        self.references: References = judge.references
        self.notebook = judge.notebook
        self.at_work = skills_at_work(self.notebook)
        self.grading = Grading(self.references.index)

    def record(self, cited: str) -> Record | None:
        """The entry that ``practice 31`` points to, answered or not."""
        found = CITED.fullmatch(cited.strip())
        return self._records.get((found[1], int(found[2]))) if found else None

    def answered(self, record: Record) -> bool:
        """Whether a later entry corrects or withdraws this one."""
        return (record.KIND, record.number) in self._answered

    def cited(self, entry: SignOff) -> tuple[Record, ...]:
        """The entries that a sign-off names as its evidence."""
        found = (self.record(str(text)) for text in entry.evidence)
        return tuple(record for record in found if record is not None)

    def skills_of(self, record: Record) -> frozenset[str]:
        """The skills that an entry of practice, trial or measurement shows something of."""
        if isinstance(record, Practice):
            return self.at_work.get(str(record.procedure), frozenset())
        if isinstance(record, Trial):
            return self.at_work.get(str(record.felt).split("/")[0], frozenset())
        if isinstance(record, Measurement):
            limit = self._measured.get(record.number)
            procedure = limit.owner_id if limit is not None else str(record.measured).split("/")[0]
            return self.at_work.get(procedure, frozenset())
        return frozenset()

    def practice(self, learner: str, skill: str, day: date | None) -> Count:
        """The pieces of a learner up to a day: all count, from the first. A start picked afterwards proves nothing."""
        made, good, kept = Fraction(0), Fraction(0), []
        for entry in self._of("practice", learner, skill, day):
            if isinstance(entry, Practice) and (pieces := _count(entry.pieces)):
                made += pieces
                good += max(Fraction(0), pieces - (_count(entry.scrap) or 0) - (_count(entry.rework) or 0))
                kept.append(entry)
        return Count(made, good, tuple(kept))

    def agreement(self, learner: str, skill: str, day: date | None) -> tuple[int, int] | None:
        """Of the verdicts in the feel trials of the latest day, how many were the teacher's too, and of how many.

        A trial can be taken again, and the last one counts. The teacher's verdict is the latest in a trial of his
        own, of the same work and piece. None where no two verdicts can be compared.
        """
        trials = self.trials(learner, skill, day)
        pairs = [pair for one in trials if _day(one) == _day(trials[-1]) for pair in self.graded(one).values()]
        return (sum(teachers == own for teachers, own in pairs), len(pairs)) if pairs else None

    def trials(self, learner: str, skill: str, day: date | None) -> tuple[Trial, ...]:
        """The feel trials of somebody in a skill, in order."""
        return tuple(one for one in self._of("trial", learner, skill, day) if isinstance(one, Trial))

    def graded(self, trial: Trial) -> dict[str, tuple[str, str]]:
        """The pieces of a trial that the teacher graded too: (the teacher's verdict, that of who felt)."""
        found = {}
        for piece, verdict in trial.verdicts.items():
            teachers = self._verdict(trial, str(piece))
            if teachers is not None:
                found[str(piece)] = (teachers, str(verdict))
        scale = self.grading.scale_of(str(trial.felt), found)
        return {piece: pair for piece, pair in found.items() if all(one in scale for one in pair)}

    def measurements(
        self, learner: str, skill: str, day: date | None, cited: Collection[Record] = (),
    ) -> tuple[Measurement, ...]:
        """Measurements that count: those the learner took, and those that are cited as being of his pieces."""
        named = [one for one in cited if isinstance(one, Measurement)]
        found = {one.number: one for one in (*self._measurements_by.get(learner, ()), *named)}
        return tuple(
            one for _, one in sorted(found.items())
            if not self.answered(one) and _by(one, day) and skill in self.skills_of(one)
        )

    def measured_at(self, skill: str) -> Sequence[tuple[NamedValue, Measurement]]:
        """Every measurement at the work of a skill that stands, with the limit it was taken against."""
        return self._measured_at.get(skill, ())

    def trials_at(self, skill: str) -> Sequence[Trial]:
        """Every feel trial at the work of a skill that stands, whoever felt, in order."""
        return self._trials_at.get(skill, ())

    def limits(
        self, learner: str, skill: str, day: date | None, cited: Collection[Record] = (),
    ) -> Iterator[tuple[str, Judgement | None]]:
        """Each limit by which a skill is proved, and what the latest measurement shows of it; None without one."""
        latest: dict[_Spot, Measurement] = {}
        for one in self.measurements(learner, skill, day, cited):
            value = self._measured.get(one.number)
            if value is not None and one.number not in self.about_gauges:
                latest[_spot(value)] = one
        for name, hits in self._limits_of(skill):
            if len(hits) != 1:
                told = "leads to more than one value" if hits else "leads to nothing"
                yield name, Judgement(Outcome.UNSHOWN, f"`{name}` {told}")
                continue
            found = latest.get(_spot(hits[0]))
            yield name, None if found is None else self.judge.judge(found, hits[0])

    def has(self, kind: str, learner: str, skill: str, day: date | None, cited: Collection[Record] = ()) -> bool:
        """Whether there is any practice, trial or measurement of this learner and skill up to a day."""
        if kind == "measurement":
            return bool(self.measurements(learner, skill, day, cited))
        return bool(self._of(kind, learner, skill, day))

    @cached_property
    def begun(self) -> Mapping[tuple[str, str], None]:
        """Every (who, skill) of which practice or a trial stands in the books."""
        return dict.fromkeys((who, skill) for _, who, skill in self._own)

    # ------------------------------------------------------------------ the books

    @cached_property
    def _records(self) -> Mapping[tuple[str, int], Record]:
        return {(kind, one.number): one for kind, entries in self.notebook.books.items() for one in entries}

    @cached_property
    def _answered(self) -> frozenset[tuple[str, int]]:
        return frozenset(
            (kind, int(earlier)) for kind, entries in self.notebook.books.items() for one in entries
            for earlier in (one.corrects, one.withdraws) if earlier is not None and int(earlier) < one.number
        )

    @cached_property
    def _own(self) -> Mapping[tuple[str, str, str], list[Record]]:
        """(kind, who, skill) to the entries, in order."""
        found: dict[tuple[str, str, str], list[Record]] = defaultdict(list)
        for one in (*self.notebook.practice, *self.notebook.trials):
            if not self.answered(one):
                for skill in self.skills_of(one):
                    found[one.KIND, str(one.who), skill].append(one)
        return found

    def _of(self, kind: str, learner: str, skill: str, day: date | None) -> list[Record]:
        return [one for one in self._own.get((kind, learner, skill), ()) if _by(one, day)]

    @cached_property
    def _verdicts(self) -> Mapping[tuple[str, str, str], list[tuple[date, str]]]:
        """(who, felt, piece) to the verdicts with their days, in order."""
        found: dict[tuple[str, str, str], list[tuple[date, str]]] = defaultdict(list)
        for one in self.notebook.trials:
            if not self.answered(one):
                for piece, verdict in one.verdicts.items():
                    found[str(one.who), str(one.felt), str(piece)].append((_day(one), str(verdict)))
        return found

    def _verdict(self, trial: Trial, piece: str) -> str | None:
        told = self._verdicts.get((str(trial.teacher), str(trial.felt), piece), ())
        return next((verdict for day, verdict in reversed(told) if day <= _day(trial)), None)

    @cached_property
    def _measurements_by(self) -> Mapping[str, list[Measurement]]:
        found: dict[str, list[Measurement]] = defaultdict(list)
        for one in self.notebook.measurements:
            found[str(one.who)].append(one)
        return found

    @cached_property
    def _measured(self) -> Mapping[int, NamedValue]:
        found = {}
        for one, place in self.references.index.of(Measurement):
            value = limit_of(self.references, one, place)
            if value is not None:
                found[one.number] = value
        return found

    @cached_property
    def about_gauges(self) -> frozenset[int]:
        """The numbers of the measurements that are rounds of a gauge study, and tell nothing of the work."""
        groups: dict[_Spot, list[Measurement]] = defaultdict(list)
        for one in self.notebook.measurements:
            value = self._measured.get(one.number)
            if value is not None and not self.answered(one):
                groups[_spot(value)].append(one)
        return frozenset(one.number for group in groups.values() for study in studies(group) for one in study)

    @cached_property
    def _measured_at(self) -> Mapping[str, list[tuple[NamedValue, Measurement]]]:
        found: dict[str, list[tuple[NamedValue, Measurement]]] = defaultdict(list)
        for one in self.notebook.measurements:
            value = self._measured.get(one.number)
            if value is not None and not self.answered(one):
                for skill in self.at_work.get(value.owner_id, ()):
                    found[skill].append((value, one))
        return found

    @cached_property
    def _trials_at(self) -> Mapping[str, list[Trial]]:
        found: dict[str, list[Trial]] = defaultdict(list)
        for one in self.notebook.trials:
            if not self.answered(one):
                for skill in self.skills_of(one):
                    found[skill].append(one)
        return found

    @cached_property
    def _proofs(self) -> Mapping[str, tuple[Proof, Place]]:
        return {place.owner_id: (proof, place) for proof, place in self.references.index.of(Proof)}

    def _limits_of(self, skill: str) -> Iterator[tuple[str, Sequence[NamedValue]]]:
        found = self._proofs.get(skill)
        if found is not None:
            proof, place = found
            yield from ((str(name), self.references.values(str(name), place)) for name in proof.limits)


def _spot(value: NamedValue) -> _Spot:
    return id(value.step or value.entry), value.key, value.name


def _count(written: Written | None) -> Fraction | None:
    found = None if written is None else figures_of(written.value)
    return None if found is None else found.aim_low


def _day(record: Record) -> date:
    return record.date.value.last if record.date is not None else date.min


def _by(record: Record, day: date | None) -> bool:
    return day is None or record.date is None or record.date.value.first <= day
