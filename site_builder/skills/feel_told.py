"""What feel trials tell: how far a learner judges as the teacher does, and how far several hands judge alike."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date

from site_builder.notebook.model.records import Trial
from site_builder.skills.evidence import Evidence
from site_builder.skills.proof.agreement import (
    Agreed,
    Kappa,
    ManyKappa,
    agreed,
    cohen_kappa,
    fleiss_kappa,
    tally,
)
from site_builder.skills.proof.leaning import Leaning, leaning


@dataclass(frozen=True, slots=True)
class Compared:
    """A trial beside the teacher's verdicts on the same pieces.

    ``grades``: (teacher's, own) by the piece's name; ``scale``: what could be given, worst first. With more than two
    grades kappa counts a disagreement by how many grades apart it is.
    """

    trial: Trial
    grades: dict[str, tuple[str, str]]
    scale: tuple[str, ...]
    agreed: Agreed
    kappa: Kappa | None
    leaning: Leaning


@dataclass(frozen=True, slots=True)
class Together:
    """Several people who judged the same pieces on one day."""

    felt: str
    day: date
    people: tuple[str, ...]
    pieces: int
    kappa: ManyKappa | None


def compared(
    evidence: Evidence, learner: str, skill: str, day: date | None, name: Callable[[str], str] = str,
) -> Iterator[Compared]:
    """Each trial of a learner that can be held against the teacher's; ``name`` is what a piece is called."""
    for trial in evidence.trials(learner, skill, day):
        grades = {name(piece): pair for piece, pair in evidence.graded(trial).items()}
        if grades:
            scale = evidence.grading.scale_of(str(trial.felt), grades)
            table = tally([one for one, _ in grades.values()], [own for _, own in grades.values()], scale)
            kappa = cohen_kappa(table, "linear" if len(scale) > 2 else "none")
            yield Compared(trial, grades, scale, agreed(table), kappa, leaning(grades, scale))


def together(evidence: Evidence, skill: str, day: date | None) -> Iterator[Together]:
    """Wherever three people or more judged the very same pieces of a skill's work on one day."""
    groups: dict[tuple[str, date, frozenset[str]], dict[str, Trial]] = {}
    for trial in evidence.trials_at(skill):
        if trial.date is not None and (day is None or trial.date.value.last <= day):
            key = (str(trial.felt), trial.date.value.last, frozenset(map(str, trial.verdicts)))
            groups.setdefault(key, {})[str(trial.who)] = trial
    for (felt, on, pieces), trials in groups.items():
        if len(trials) >= 3 and pieces:
            given = dict.fromkeys(str(grade) for one in trials.values() for grade in one.verdicts.values())
            counts = [[sum(one.verdicts[piece] == grade for one in trials.values()) for grade in given]
                      for piece in next(iter(trials.values())).verdicts]
            yield Together(felt, on, tuple(trials), len(pieces), fleiss_kappa(counts))
